import type { ControlPolygon } from '../../geometry/path/control-polygon.js';
import { polygonFromLra } from '../../geometry/path/lra.js';
import { along, dot, unit, type Vec3 } from '../../geometry/vec3.js';
import type { Port } from '../plan.js';
import type { PlanFile } from '../schema/plan-file.js';

/** A route of the file: by intersection points or by a bender's rows. */
export type RouteSection = PlanFile['runners']['routes'][number];

/** The intersection points of a route given by hand; rows start at the port along its axis. Throws RangeError when the plane runs along the port's axis. */
export function routePolygon(route: RouteSection, port: Port): ControlPolygon {
  if (route.by === 'xyz') {
    const { points, clr } = route;
    return { points, clr: Array.isArray(clr) ? clr : points.slice(2).map(() => clr) };
  }
  const start = { point: port.frame.origin, direction: port.frame.z, normal: squareTo(route.plane, port.frame.z) };
  return polygonFromLra({ rows: route.rows, lastStraight: route.last_straight }, start);
}

const squareTo = (normal: Vec3, axis: Vec3): Vec3 => unit(along(normal, axis, -dot(normal, axis)));
