import type { Frame } from './frame.js';
import { pointInto } from './frame.js';
import { dot, type Vec3 } from './vec3.js';

/** A convex solid that tubes keep away from. */
export type Obstacle =
  /** Everything on the far side of a plane from its unit normal. */
  | { readonly kind: 'half-space'; readonly point: Vec3; readonly normal: Vec3 }
  /** Corners in the box's own frame, mm. */
  | { readonly kind: 'box'; readonly frame: Frame; readonly from: Vec3; readonly to: Vec3 }
  /** From the frame's origin along its z, mm. */
  | { readonly kind: 'cylinder'; readonly frame: Frame; readonly radius: number; readonly length: number };

/**
 * Signed distance from a point to the skin of an obstacle, mm: negative inside. Exact outside; inside it is minus the depth to
 * the nearest face. As the signed distance of a convex solid it is a convex function of the point.
 */
export function obstacleDistance(o: Obstacle, p: Vec3): number {
  if (o.kind === 'half-space') {
    return dot(o.normal, [p[0] - o.point[0], p[1] - o.point[1], p[2] - o.point[2]]);
  }
  const q = pointInto(o.frame, p);
  if (o.kind === 'box') {
    return outsideOf(
      Math.max(o.from[0] - q[0], q[0] - o.to[0]),
      Math.max(o.from[1] - q[1], q[1] - o.to[1]),
      Math.max(o.from[2] - q[2], q[2] - o.to[2]),
    );
  }
  const radial = Math.hypot(q[0], q[1]) - o.radius;
  return outsideOf(radial, Math.max(-q[2], q[2] - o.length), Number.NEGATIVE_INFINITY);
}

/** Distance from excesses past the faces in perpendicular directions: negative when none is past. */
function outsideOf(a: number, b: number, c: number): number {
  const deepest = Math.max(a, b, c);
  if (deepest <= 0) return deepest;
  return Math.hypot(Math.max(a, 0), Math.max(b, 0), Math.max(c, 0));
}
