import { power } from '../../geometry/power.js';

/**
 * Loss coefficient of a smooth round bend by D. C. Rennels, Pipe Flow: A Practical and Comprehensive Guide, ch. 15:
 * K = f a r/d + (0.10 + 2.4 f) sin(a/2) + 6.6 f (sqrt(sin(a/2)) + sin(a/2)) / (r/d)^(4 a / pi), friction within it included. `radius` over the
 * bore, `friction` Darcy's factor, `angle` a in rad.
 */
export function rennelsLoss(radius: number, angle: number, friction: number): number {
  const s = Math.sin(angle / 2);
  const tight = (6.6 * friction * (Math.sqrt(s) + s)) / power(radius, (4 * angle) / Math.PI);
  return friction * angle * radius + (0.1 + 2.4 * friction) * s + tight;
}
