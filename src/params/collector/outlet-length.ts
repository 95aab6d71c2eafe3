import type { CollectorOutlet } from '../plan.js';

/** From the merge's end to the end of the outlet, mm. */
export const outletLength = ({ coneLength, throat, tail }: CollectorOutlet): number =>
  coneLength + (throat === null ? 0 : throat.length + throat.diffuserLength) + tail;

/** Length, mm, of a cone between two radii, mm, at a half-angle in rad. */
export const coneLengthAt = (from: number, to: number, halfAngle: number): number =>
  Math.abs(from - to) / Math.tan(halfAngle);
