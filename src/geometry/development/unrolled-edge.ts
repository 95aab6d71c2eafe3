import type { FittedRun } from '../curve/arc-fit.js';
import { biarcsAlong, type Curve2 } from '../curve/curve-biarcs.js';
import type { TubeEnd } from './tube-end.js';

const TURN = 2 * Math.PI;

/** Corners this close to an end of the run, rad, are that end. */
const SAME = 1e-7;

/**
 * The edge of a tube's end unrolled once round from `seam` rad: x = `paper` mm times the angle from the seam, y the height. Lines
 * and arcs within `tolerance` mm; corners of the edge stay corners.
 */
export function unrolledEdge(end: TubeEnd, seam: number, paper: number, tolerance: number): FittedRun {
  return alongWithCorners((phi) => [paper * (phi - seam), end.height(phi)], seam, seam + TURN, end.corners, tolerance);
}

/** Lines and arcs along a curve over a range of angles, broken at corners given once for all turns, rad. */
export function alongWithCorners(
  curve: Curve2,
  from: number,
  to: number,
  corners: readonly number[],
  tolerance: number,
): FittedRun {
  const inside = corners
    .map((c) => c + TURN * Math.ceil((from - c) / TURN - SAME))
    .filter((c) => c > from + SAME && c < to - SAME)
    .sort((a, b) => a - b);
  const breaks = [from, ...inside, to];
  const runs = breaks.slice(1).map((b, i) => biarcsAlong(curve, breaks[i]!, b, tolerance));
  return { sides: runs.flatMap((r) => r.sides), deviation: runs.reduce((most, r) => Math.max(most, r.deviation), 0) };
}
