import type { PoppetValves } from './gas-engine.js';

/** The narrowest section behind the seat over the area of the valve's head, stem and seat taken off (common practice, no source). */
const THROAT_SHARE = 0.8;

/**
 * Lift, m, at a crank angle after firing top dead centre: rise and fall are 3-4-5 polynomials, which start and end without a jump of
 * speed or acceleration (R. L. Norton, Cam Design and Manufacturing Handbook). The mean lift is half of the largest.
 */
export function valveLift({ opens, closes, lift }: PoppetValves, angle: number): number {
  const half = (closes - opens) / 2;
  const u = 1 - Math.abs((angle - opens) / half - 1);
  return u > 0 ? lift * u * u * u * (10 + u * (6 * u - 15)) : 0;
}

/** Area, m2, that an ideal nozzle of the same flow would have: curtain under the heads, or the throat behind, times the discharge. */
export function effectiveArea(valves: PoppetValves, angle: number): number {
  const { count, diameter, discharge } = valves;
  const curtain = Math.PI * diameter * valveLift(valves, angle);
  const throat = THROAT_SHARE * (Math.PI / 4) * diameter * diameter;
  return count * discharge * Math.min(curtain, throat);
}
