import { wrapTwoPi } from '../../geometry/angle.js';
import { leastBetween, type TubeEnd } from '../../geometry/development/tube-end.js';
import { unrolledEdge } from '../../geometry/development/unrolled-edge.js';
import { polygonOutline } from '../../geometry/outline/make.js';
import { outlineBounds } from '../../geometry/outline/measure.js';
import type { Outline } from '../../geometry/outline/outline.js';
import { outlineOfSides, reverseSide, type Side } from '../../geometry/outline/sides.js';
import { mirrorOutline, translateOutline } from '../../geometry/outline/transform.js';
import type { Vec2 } from '../../geometry/vec2.js';
import { lengthWords } from '../../params/faults/wording.js';
import type { PatternPlan } from '../../params/plan.js';
import type { Pattern, PatternLine } from './pattern.js';

/** Largest distance allowed between a drawn edge and the true one, mm. */
export const EDGE_TOLERANCE = 0.003;

/** Paper left below the lowest point of a cut where the tube's other end is not part of the pattern, mm. */
export const STRIP = 25;

/** The tube a pattern goes round, mm. */
export interface RoundTube {
  readonly od: number;
  readonly wall: number;
}

/** How the paper is laid. */
export type Layout = Pick<PatternPlan, 'wrap' | 'tab' | 'paper' | 'units'>;

/** What a wrap shows: both ends of the tube as heights along its generators, the reference line at angle 0. */
export interface WrapSpec {
  readonly name: string;
  readonly title: string;
  readonly count: number;
  readonly tube: RoundTube;
  readonly low: TubeEnd;
  readonly high: TubeEnd;
  /** What the reference line is: 'outer line'. */
  readonly reference: string;
  /** What the arrow up the tube says. */
  readonly guide: string;
  readonly notes: readonly string[];
}

/** Radius of the face the paper lies on, mm: where a flat saw cut is seen. */
export const markedRadius = ({ od, wall }: RoundTube, side: Layout['wrap']): number =>
  side === 'outside' ? od / 2 : od / 2 - wall;

/** Radius at which the paper's middle runs round, mm: half a thickness off the face. */
const paperRadius = (tube: RoundTube, { wrap, paper }: Layout): number =>
  markedRadius(tube, wrap) + (wrap === 'outside' ? paper / 2 : -paper / 2);

/**
 * Paper that goes once round a tube. Seam on the shortest generator. x runs round the tube as its face is seen: from outside, or
 * mirrored for paper inside, so that the print is on the side that can be read. Throws RangeError when nothing is left between the ends.
 */
export function wrapPattern(spec: WrapSpec, layout: Layout): Pattern {
  const { low, high } = spec;
  const round = paperRadius(spec.tube, layout);
  const seam = seamOf(low, high);
  const [below, above] = [low, high].map((end) => unrolledEdge(end, seam, round, EDGE_TOLERANCE));
  const width = 2 * Math.PI * round;
  const [from, to] = [low.height(seam), high.height(seam)];
  if (!(to > from)) throw new RangeError(`${spec.title}: its ends cut each other off`);
  const outline = outlineOfSides([
    ...below!.sides,
    { kind: 'line', from: [width, from], to: [width, to] },
    ...[...above!.sides].reverse().map((s): Side => reverseSide(s)),
    { kind: 'line', from: [0, to], to: [0, from] },
  ]);
  const down = -outlineBounds(outline).from[1];
  const laid = (o: Outline): Outline => {
    const raised = translateOutline(o, [0, down]);
    return layout.wrap === 'outside' ? raised : translateOutline(mirrorOutline(raised), [width, 0]);
  };
  const point = ([x, y]: Vec2): Vec2 => [layout.wrap === 'outside' ? x : width - x, y + down];
  return {
    name: spec.name,
    title: spec.title,
    use: 'wrap',
    count: spec.count,
    outline: laid(outline),
    holes: [],
    tab: layout.tab > 0 ? laid(tabOf(width, from, to, layout.tab)) : null,
    lines: linesOf(spec, seam, round).map((l) => ({ ...l, points: l.points.map(point) })),
    tube: { od: spec.tube.od, wall: spec.tube.wall, side: layout.wrap },
    plate: null,
    units: layout.units,
    deviation: Math.max(below!.deviation, above!.deviation),
    notes: [...spec.notes, ...layoutNotes(layout, width)],
  };
}

/** Places round the tube where the seam is looked for. */
const PLACES = 720;

/** The shortest generator, rad: of several the first from the reference line on. */
function seamOf(low: TubeEnd, high: TubeEnd): number {
  const tall = (phi: number): number => high.height(phi) - low.height(phi);
  const places = Array.from({ length: PLACES }, (_, i) => (i * 2 * Math.PI) / PLACES);
  const heights = places.map(tall);
  const least = Math.min(...heights);
  if (Math.max(...heights) - least < 1e-9) return Math.PI;
  const place = places[heights.findIndex((h) => h < least + 1e-9)]!;
  const step = places[1]!;
  const exact = leastBetween(tall, place - step, place + step);
  return wrapTwoPi(tall(exact) < least - 1e-9 ? exact : place);
}

/** A strip beyond the seam with its corners taken off. */
function tabOf(width: number, from: number, to: number, tab: number): Outline {
  const corner = Math.min(tab / 2, (to - from) / 4, 6);
  return polygonOutline([
    [width, from],
    [width + tab, from + corner],
    [width + tab, to - corner],
    [width, to],
  ]);
}

const QUARTERS = [90, 180, 270] as const;

function linesOf({ low, high, reference, guide }: WrapSpec, seam: number, round: number): PatternLine[] {
  const upright = (kind: PatternLine['kind'], degrees: number, label: string): PatternLine => {
    const phi = (degrees * Math.PI) / 180;
    const x = round * wrapTwoPi(phi - seam);
    return {
      kind,
      label,
      points: [
        [x, low.height(phi)],
        [x, high.height(phi)],
      ],
    };
  };
  return [
    upright('reference', 0, `0: ${reference}`),
    ...QUARTERS.map((q) => upright('quarter', q, `${q}`)),
    arrow(upright('guide', 45, guide)),
  ];
}

/** The middle third of a line. */
function arrow(line: PatternLine): PatternLine {
  const [[x, from], [, to]] = line.points as readonly [Vec2, Vec2];
  return {
    ...line,
    points: [
      [x, from + (to - from) / 3],
      [x, from + ((to - from) * 2) / 3],
    ],
  };
}

function layoutNotes({ wrap, tab, paper, units }: Layout, width: number): string[] {
  const round = `${lengthWords(width, units, 2)} once round at the middle of paper of ${lengthWords(paper, units)}`;
  const way =
    wrap === 'outside'
      ? `Wrap round the outside, print outwards: ${round}`
      : `Roll inside the tube, print towards you: ${round}`;
  return [way, ...(tab > 0 ? ['The two ends of the outline meet; the tab goes under the other end'] : [])];
}
