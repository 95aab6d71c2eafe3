import { radians } from '../../geometry/angle.js';
import { coneLengthAt } from '../../params/collector/outlet-length.js';

/**
 * Largest half-angle, rad, at which the flow in a round diffuser stays on its wall: about 7 deg (a review citing Azad 1996 and
 * others). From memory the least loss lies at 6 to 8 deg of the whole angle (White, Fluid Mechanics, fig. 6.28; Idelchik, ch. 5).
 */
export const ATTACHED_HALF_ANGLE = radians(7);

/** Length of a round cone between two radii, mm, at a half-angle in rad: L = |r2 - r1| / tan(half-angle). */
export const coneLengthFor = coneLengthAt;

/** Length, mm, over which a round cone that widens from `radius` mm at a half-angle in rad has grown its area `times`: r (sqrt(times) - 1) / tan(half-angle). */
export const lengthForGrowth = (radius: number, halfAngle: number, times: number): number =>
  (radius * (Math.sqrt(times) - 1)) / Math.tan(halfAngle);
