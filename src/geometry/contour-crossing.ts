import { type Contour, placeWords } from './contour.js';
import { sideCrossings } from './outline-crossings.js';
import { boxesApart, boxOf, type SideBox } from './side-box.js';
import { distance2, type Vec2 } from './vec2.js';

/** Where neighbours share an end, a meeting within this, mm, is that end. */
const SHARED = 1e-5;

/** Throws RangeError naming the place and both sides where a contour crosses or touches itself. */
export function refuseCrossing(contour: Contour): void {
  const boxes = contour.map((s) => boxOf(s.side));
  const order = sweepOrder(boxes);
  let active: number[] = [];
  for (const j of order.by) {
    active = active.filter((i) => order.end(boxes[i]!) >= order.begin(boxes[j]!));
    for (const i of active) {
      if (boxesApart(boxes[i]!, boxes[j]!, 0)) continue;
      const p = meeting(contour, Math.min(i, j), Math.max(i, j));
      if (p !== null) throw new RangeError(wordsOf(contour, Math.min(i, j), Math.max(i, j), p));
    }
    active.push(j);
  }
}

interface Sweep {
  readonly by: readonly number[];
  readonly begin: (box: SideBox) => number;
  readonly end: (box: SideBox) => number;
}

/** The sides in the order a line meets them that sweeps along the longer way of the contour. */
function sweepOrder(boxes: readonly SideBox[]): Sweep {
  const extent = (low: (b: SideBox) => number, high: (b: SideBox) => number) =>
    boxes.reduce((m, b) => Math.max(m, high(b)), -1e300) - boxes.reduce((m, b) => Math.min(m, low(b)), 1e300);
  const [left, right, low, high] = [
    (b: SideBox) => b.left,
    (b: SideBox) => b.right,
    (b: SideBox) => b.low,
    (b: SideBox) => b.high,
  ] as const;
  const [begin, end] = extent(left, right) >= extent(low, high) ? [left, right] : [low, high];
  return { by: boxes.map((_, i) => i).sort((a, b) => begin(boxes[a]!) - begin(boxes[b]!)), begin, end };
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
