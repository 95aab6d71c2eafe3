import { ringRadius } from './inlet-ring.js';

/**
 * Share of the bore's radius the inlets' centres stand from the collector's axis where the merge ends: below 1, so the bores
 * have closed the hole between them; and half the distance between neighbours is at most VALLEY of it, so that the valleys
 * between the lobes are no deeper than 1 - sqrt(1 - VALLEY^2) = 0.18 of it. Both are our choice: deeper valleys make a shorter
 * merge with a larger step to the cone.
 */
const CLOSED = 0.8;
const VALLEY = CLOSED * Math.SQRT1_2;

/** Below this merge half-angle, rad, tubes count as parallel: they end in a plate half a diameter behind the inlet plane. */
export const PARALLEL = 1e-6;

/** Where a merge of tubes ends and its cone begins. */
export interface MergeEnd {
  /** From the inlet plane along the collector's axis, mm. */
  readonly length: number;
  /** Distance of the tubes' axes from the collector's axis there, mm. */
  readonly radius: number;
}

/** The end of a merge of `count` tubes of outside diameter `od` and bore radius `bore`, `gap` apart, tilted by `halfAngle` rad. */
export function mergeEnd(count: number, od: number, bore: number, gap: number, halfAngle: number): MergeEnd {
  if (count === 1) return { length: 0, radius: 0 };
  const rho = ringRadius(count, od, gap);
  if (halfAngle < PARALLEL) return { length: od / 2, radius: rho };
  const radius = Math.min(rho, bore * Math.min(CLOSED, VALLEY / Math.sin(Math.PI / count)));
  return { length: (rho - radius) / Math.tan(halfAngle), radius };
}
