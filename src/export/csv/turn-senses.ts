import { degrees, wrapTwoPi } from '../../geometry/angle.js';

/** A turn this small, deg, is none: far below any protractor, far above rounding. */
const NO_TURN = 1e-9;

/**
 * One turn about the way of the gas as both kinds of bender and protractor count it, degrees from 0 to 360: right-handed, which is
 * clockwise looking along the flow, and the other way round. `rad` is right-handed.
 */
export function bothSenses(rad: number): { readonly clockwise: number; readonly counterClockwise: number } {
  const turn = degrees(wrapTwoPi(rad));
  if (turn < NO_TURN || turn > 360 - NO_TURN) return { clockwise: 0, counterClockwise: 0 };
  return { clockwise: turn, counterClockwise: 360 - turn };
}
