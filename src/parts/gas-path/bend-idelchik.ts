import { degrees, radians } from '../../geometry/angle.js';
import { power } from '../../geometry/power.js';

/** A1 by the bend's angle in degrees: 0.9 sin to 70; 1 at 90 and 0.7 + 0.35 angle / 90 from 100 on, both from memory; straight lines between. */
function byAngle(angle: number): number {
  const d = degrees(angle);
  const steep = (x: number): number => 0.7 + (0.35 * x) / 90;
  const at70 = 0.9 * Math.sin(radians(70));
  if (d <= 70) return 0.9 * Math.sin(angle);
  if (d <= 90) return at70 + ((1 - at70) * (d - 70)) / 20;
  if (d <= 100) return 1 + ((steep(100) - 1) * (d - 90)) / 10;
  return steep(d);
}

/**
 * Loss coefficient of a smooth round bend by I. E. Idelchik, Handbook of Hydraulic Resistance, section 6: local A1 0.21 / sqrt(R/D), below
 * R/D = 1 A1 0.21 / (R/D)^2.5 (from memory), and friction along the arc. `radius` over the bore, `friction` Darcy's factor, `angle` rad.
 */
export function idelchikLoss(radius: number, angle: number, friction: number): number {
  const byRadius = 0.21 / (radius >= 1 ? Math.sqrt(radius) : power(Math.max(radius, 0.5), 2.5));
  return byAngle(angle) * byRadius + friction * radius * angle;
}
