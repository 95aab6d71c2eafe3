import type { Frame } from '../frame.js';
import { scanDistance } from '../scan/distance.js';
import type { MeshField } from '../scan/field.js';
import type { Vec3 } from '../vec3.js';

/** A convex solid that tubes keep away from. */
export type ConvexObstacle =
  /** Everything on the far side of a plane from its unit normal. */
  | { readonly kind: 'half-space'; readonly point: Vec3; readonly normal: Vec3 }
  /** Corners in the box's own frame, mm. */
  | { readonly kind: 'box'; readonly frame: Frame; readonly from: Vec3; readonly to: Vec3 }
  /** From the frame's origin along its z, mm. */
  | { readonly kind: 'cylinder'; readonly frame: Frame; readonly radius: number; readonly length: number }
  /** A cylinder with half balls on both ends; `length` is from centre to centre, from the frame's origin along its z, mm. */
  | { readonly kind: 'capsule'; readonly frame: Frame; readonly radius: number; readonly length: number };

/** What tubes keep away from: a convex solid, or the skin of a scan, which may be open and has no inside. */
export type Obstacle = ConvexObstacle | { readonly kind: 'mesh'; readonly field: MeshField };

/**
 * Distance from a point to the skin of an obstacle, mm. For a convex solid it is signed and a convex function of the point:
 * exact outside, inside minus the depth to the nearest face. For a scan it is the unsigned estimate of `scanDistance`.
 */
export function obstacleDistance(o: Obstacle, p: Vec3): number {
  return distanceAt(o, p[0], p[1], p[2]);
}

/** `obstacleDistance` of a point given by its coordinates, for those that ask a million times. */
function distanceAt(o: Obstacle, x: number, y: number, z: number): number {
  if (o.kind === 'mesh') return scanDistance(o.field, x, y, z);
  if (o.kind === 'half-space') {
    return o.normal[0] * (x - o.point[0]) + o.normal[1] * (y - o.point[1]) + o.normal[2] * (z - o.point[2]);
  }
  const f = o.frame;
  const rx = x - f.origin[0];
  const ry = y - f.origin[1];
  const rz = z - f.origin[2];
  const u = f.x[0] * rx + f.x[1] * ry + f.x[2] * rz;
  const v = f.y[0] * rx + f.y[1] * ry + f.y[2] * rz;
  const w = f.z[0] * rx + f.z[1] * ry + f.z[2] * rz;
  return distanceInFrame(o, u, v, w);
}

/** A convex solid that has a frame of its own. */
export type FramedObstacle = Exclude<ConvexObstacle, { kind: 'half-space' }>;

/** Signed distance from a point given in the obstacle's own frame, mm. */
export function distanceInFrame(o: FramedObstacle, x: number, y: number, z: number): number {
  switch (o.kind) {
    case 'box':
      return outsideOf(
        Math.max(o.from[0] - x, x - o.to[0]),
        Math.max(o.from[1] - y, y - o.to[1]),
        Math.max(o.from[2] - z, z - o.to[2]),
      );
    case 'capsule': {
      const past = z < 0 ? z : z > o.length ? z - o.length : 0;
      return Math.sqrt(x * x + y * y + past * past) - o.radius;
    }
    case 'cylinder':
      return outsideOf(Math.sqrt(x * x + y * y) - o.radius, Math.max(-z, z - o.length), Number.NEGATIVE_INFINITY);
  }
}

/** Distance from excesses past the faces in perpendicular directions: negative when none is past. */
function outsideOf(a: number, b: number, c: number): number {
  const deepest = Math.max(a, b, c);
  if (deepest <= 0) return deepest;
  const x = a > 0 ? a : 0;
  const y = b > 0 ? b : 0;
  const z = c > 0 ? c : 0;
  return Math.sqrt(x * x + y * y + z * z);
}
