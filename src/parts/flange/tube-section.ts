import { directionInto } from '../../geometry/frame.js';
import { ellipseOutline } from '../../geometry/outline/ellipse.js';
import type { Outline } from '../../geometry/outline/outline.js';
import type { Vec3 } from '../../geometry/vec3.js';
import type { Plan, Port } from '../../params/plan.js';

/** The way the gas leaves a port, in the coordinates of its head face. */
export const axisOnFace = (plan: Plan, port: Port): Vec3 => directionInto(plan.heads[port.head]!.frame, port.frame.z);

/**
 * Where a round tube along a port's axis passes a plane `height` mm over the head face: a circle, or an ellipse where the port
 * leaves at a tilt. Head face coordinates, mm.
 */
export function tubeSection(plan: Plan, port: Port, radius: number, height: number): Outline {
  const [x, y, z] = axisOnFace(plan, port);
  const centre = [port.at[0] + (x / z) * height, port.at[1] + (y / z) * height] as const;
  return ellipseOutline(centre, [radius / z, radius], Math.atan2(y, x));
}
