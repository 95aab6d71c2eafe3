import { sideCrossings } from '../outline/crossings.js';
import { boxesApart, boxOf, type SideBox } from '../outline/side-box.js';
import { distance2, type Vec2 } from '../vec2.js';
import { type Contour, placeWords } from './contour.js';

/** Where neighbours share an end, a meeting within this, mm, is that end. */
const SHARED = 1e-5;

/** Pairs of sides that lie so near that they are looked at closely; many times what 20,000 sides of a port have. */
const MOST_PAIRS = 500_000;

/** Throws RangeError naming the place and both sides where a contour crosses or touches itself. */
export function refuseCrossing(contour: Contour): void {
  const boxes = contour.map((s) => boxOf(s.side));
  const { by, begin, end } = sweepOrder(boxes);
  const active: number[] = [];
  let pairs = 0;
  for (const j of by) {
    const box = boxes[j]!;
    let kept = 0;
    for (const i of active) if (end(boxes[i]!) >= begin(box)) active[kept++] = i;
    active.length = kept;
    for (const i of active) {
      if (boxesApart(boxes[i]!, box, 0)) continue;
      const p = meeting(contour, Math.min(i, j), Math.max(i, j));
      if (p !== null) throw new RangeError(wordsOf(contour, Math.min(i, j), Math.max(i, j), p));
      if (++pairs > MOST_PAIRS) throw new RangeError(`the contour of ${contour[0]!.name} winds too closely for a port`);
    }
    active.push(j);
  }
}

interface Sweep {
  readonly by: readonly number[];
  readonly begin: (box: SideBox) => number;
  readonly end: (box: SideBox) => number;
}

/** The sides in the order a line meets them that sweeps along x or y: the way on which it meets fewer at a time. */
function sweepOrder(boxes: readonly SideBox[]): Sweep {
  const ways = [
    { begin: (b: SideBox) => b.left, end: (b: SideBox) => b.right },
    { begin: (b: SideBox) => b.low, end: (b: SideBox) => b.high },
  ].map((way) => ({ ...way, crowd: crowdOf(boxes, way.begin, way.end) }));
  const { begin, end } = ways.reduce((a, b) => (b.crowd < a.crowd ? b : a));
  return { by: boxes.map((_, i) => i).sort((a, b) => begin(boxes[a]!) - begin(boxes[b]!)), begin, end };
}

/** How many sides a line meets on average. */
function crowdOf(boxes: readonly SideBox[], begin: (b: SideBox) => number, end: (b: SideBox) => number): number {
  const low = boxes.reduce((m, b) => Math.min(m, begin(b)), Number.POSITIVE_INFINITY);
  const high = boxes.reduce((m, b) => Math.max(m, end(b)), Number.NEGATIVE_INFINITY);
  return boxes.reduce((sum, b) => sum + end(b) - begin(b), 0) / (high - low);
}

/** Where sides i < j meet elsewhere than at the end neighbours share, or null. */
function meeting(contour: Contour, i: number, j: number): Vec2 | null {
  const [a, b] = [contour[i]!.side, contour[j]!.side];
  const shared = [...(j === i + 1 ? [a.to] : []), ...(i === 0 && j === contour.length - 1 ? [a.from] : [])];
  return sideCrossings(a, b).find((p) => !shared.some((q) => distance2(p, q) < SHARED)) ?? null;
}

function wordsOf(contour: Contour, i: number, j: number, p: Vec2): string {
  const [a, b] = [contour[i]!.name, contour[j]!.name];
  const which = a === b ? `sides ${i + 1} and ${j + 1} of ${a}` : `${a} and ${b}`;
  return `the contour crosses itself at ${placeWords(p)}: ${which}`;
}
