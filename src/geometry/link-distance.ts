import { pointInto } from './frame.js';
import { distanceInFrame, type FramedObstacle, type Obstacle } from './obstacle.js';
import { scanLinkDistance } from './scan-distance.js';
import { segmentApproach } from './segment-distance.js';
import { along, dot, sub, type Vec3 } from './vec3.js';

/** How close, mm, the least distance along a link comes to the true one. */
export const LINK_ERROR = 0.05;

/**
 * Least distance along the straight link p-q to an obstacle, mm; `cutoff` when nothing is nearer. For a convex obstacle it is
 * signed as `obstacleDistance` is, never below the true one and at most `LINK_ERROR` above it. For a scan it is as good as
 * `scanDistance`.
 */
export function linkDistance(o: Obstacle, p: Vec3, q: Vec3, cutoff: number): number {
  switch (o.kind) {
    case 'half-space':
      return Math.min(cutoff, dot(o.normal, sub(p, o.point)), dot(o.normal, sub(q, o.point)));
    case 'capsule': {
      const { origin, z } = o.frame;
      return Math.min(cutoff, segmentApproach(p, q, origin, along(origin, z, o.length)).distance - o.radius);
    }
    case 'mesh':
      return scanLinkDistance(o.field, p, q, cutoff);
    default:
      return lowestInFrame(o, pointInto(o.frame, p), pointInto(o.frame, q), cutoff);
  }
}

const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * Golden section over the convex distance along a link given in the obstacle's frame. As the distance changes no faster than the
 * place, a bracket of `LINK_ERROR` bounds the error, and far ends rule a link out at once.
 */
function lowestInFrame(o: FramedObstacle, p: Vec3, q: Vec3, cutoff: number): number {
  const dx = q[0] - p[0];
  const dy = q[1] - p[1];
  const dz = q[2] - p[2];
  const link = Math.sqrt(dx * dx + dy * dy + dz * dz);
  const atStart = distanceInFrame(o, p[0], p[1], p[2]);
  const atEnd = distanceInFrame(o, q[0], q[1], q[2]);
  let least = Math.min(cutoff, atStart, atEnd);
  if ((atStart + atEnd - link) / 2 >= least) return least;
  let lo = 0;
  let hi = 1;
  let a = 1 - GOLDEN;
  let b = GOLDEN;
  let fa = distanceInFrame(o, p[0] + dx * a, p[1] + dy * a, p[2] + dz * a);
  let fb = distanceInFrame(o, p[0] + dx * b, p[1] + dy * b, p[2] + dz * b);
  while ((hi - lo) * link > LINK_ERROR) {
    least = Math.min(least, fa, fb);
    if (fa <= fb) {
      hi = b;
      b = a;
      fb = fa;
      a = hi - GOLDEN * (hi - lo);
      fa = distanceInFrame(o, p[0] + dx * a, p[1] + dy * a, p[2] + dz * a);
    } else {
      lo = a;
      a = b;
      fa = fb;
      b = lo + GOLDEN * (hi - lo);
      fb = distanceInFrame(o, p[0] + dx * b, p[1] + dy * b, p[2] + dz * b);
    }
  }
  return Math.min(least, fa, fb);
}
