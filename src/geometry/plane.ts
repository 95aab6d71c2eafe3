import { dot, sub, type Vec3 } from './vec3.js';

/** A plane by a point, mm, and a unit normal. */
export interface Plane {
  /** Any point of it. */
  readonly point: Vec3;
  /** Unit vector. */
  readonly normal: Vec3;
}

/** Distance of a point from the plane, mm, positive on the side the normal points to. */
export const heightAbove = (plane: Plane, p: Vec3): number => dot(sub(p, plane.point), plane.normal);
