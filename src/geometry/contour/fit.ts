import { fitArcs, fitClosedArcs } from '../curve/arc-fit.js';
import { signedArea } from '../outline/measure.js';
import type { Outline } from '../outline/outline.js';
import { bulgeOf, outlineOfSides, type Side, sideBetween, sideLength } from '../outline/sides.js';
import { reverseOutline } from '../outline/transform.js';
import type { Vec2 } from '../vec2.js';
import { type Contour, shortNumber } from './contour.js';

/** Straight sides in a row from which on they are points of a trace and not sides that someone drew. */
const DENSE = 8;

/** Sides shorter than this, mm, are taken out. */
export const LEAST_SIDE = 0.01;

/** A contour as lines and arcs, counter-clockwise. */
export interface FittedContour {
  readonly outline: Outline;
  /** Straight sides that were fitted; 0 when the contour is taken as it is. */
  readonly points: number;
  /** Lines and arcs that stand for them. */
  readonly fitted: number;
  /** Largest distance of a point from them, with what sampling curves may have lost, mm. */
  readonly deviation: number;
}

/**
 * The outline of a contour: lines and arcs as they are, runs of eight straight sides and more fitted by lines and arcs within
 * `tolerance` mm of the file's curve. Throws RangeError when the contour has no area, or sampled curves leave no tolerance.
 */
export function fitContour(contour: Contour, tolerance: number): FittedContour {
  const sides = withoutCrumbs(contour);
  if (sides.length < 2) throw new RangeError(`the contour of ${contour[0]!.name} encloses no area`);
  const first = sides.findIndex((s, i) => s.side.kind === 'arc' && sides.at(i - 1)!.side.kind !== 'arc');
  const runs = runsOf(first > 0 ? [...sides.slice(first), ...sides.slice(0, first)] : sides);
  const out: Side[] = [];
  let [points, fitted, deviation] = [0, 0, 0];
  for (const run of runs) {
    const dense = run[0]!.side.kind === 'line' && run.length >= DENSE;
    if (!dense) {
      for (const s of run) out.push(s.side);
      continue;
    }
    const lost = run.reduce((most, s) => Math.max(most, s.error), 0);
    if (!(tolerance > lost)) {
      throw new RangeError(`expected a fit over ${shortNumber(lost)} mm, which sampled curves may be off`);
    }
    const at = run.map((s): Vec2 => s.side.from);
    const whole = runs.length === 1;
    const fit = whole ? fitClosedArcs(at, tolerance - lost) : fitArcs([...at, run.at(-1)!.side.to], tolerance - lost);
    for (const s of fit.sides) out.push(s);
    points += run.length + (whole ? 0 : 1);
    fitted += fit.sides.length;
    deviation = Math.max(deviation, fit.deviation + lost);
  }
  const outline = outlineOfSides(out);
  const area = signedArea(outline);
  if (area === 0) throw new RangeError(`the contour of ${contour[0]!.name} encloses no area`);
  return { outline: area > 0 ? outline : reverseOutline(outline), points, fitted, deviation };
}

/** The contour without sides too short to cut: the next begins where such a one began. */
function withoutCrumbs(contour: Contour): Contour {
  const kept: Contour[number][] = [];
  let from: Vec2 | null = null;
  for (const s of contour) {
    const side: Side = from === null ? s.side : sideBetween(from, s.side.to, bulgeOf(s.side));
    if (sideLength(side) < LEAST_SIDE) from = side.from;
    else {
      kept.push(side === s.side ? s : { ...s, side });
      from = null;
    }
  }
  const last = kept.at(-1);
  if (from === null || last === undefined) return kept;
  return [...kept.slice(0, -1), { ...last, side: sideBetween(last.side.from, kept[0]!.side.from, bulgeOf(last.side)) }];
}

/** Runs of sides of one kind. */
function runsOf(sides: Contour): readonly Contour[] {
  const runs: Contour[number][][] = [];
  for (const s of sides) {
    const run = runs.at(-1);
    if (run !== undefined && run[0]!.side.kind === s.side.kind) run.push(s);
    else runs.push([s]);
  }
  return runs;
}
