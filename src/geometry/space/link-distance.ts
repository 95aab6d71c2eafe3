import { pointInto } from '../frame.js';
import { scanLinkDistance } from '../scan/distance.js';
import { along, type Vec3 } from '../vec3.js';
import {
  type ConvexObstacle,
  distanceInFrame,
  type FramedObstacle,
  type Obstacle,
  obstacleDistance,
} from './obstacle.js';
import { segmentApproach } from './segment-distance.js';

/** How close, mm, the least distance along a link comes to the true one. */
export const LINK_ERROR = 0.05;

/**
 * Least distance along the straight link p-q to an obstacle, mm; `cutoff` when nothing is nearer. For a convex obstacle it is
 * signed as `obstacleDistance` is, never below the true one and at most `LINK_ERROR` above it. For a scan it is as good as
 * `scanDistance`.
 */
export function linkDistance(o: Obstacle, p: Vec3, q: Vec3, cutoff: number): number {
  if (o.kind === 'mesh') return scanLinkDistance(o.field, p, q, cutoff);
  return nearestOnLink(o, p, q, LINK_ERROR, cutoff)?.distance ?? cutoff;
}

/** Where a link comes closest to an obstacle: distance, mm, and how far along the link, 0 to 1. */
export interface OnLink {
  readonly distance: number;
  readonly t: number;
}

/**
 * Where the straight link p-q is nearest to a convex obstacle, its distance at most `error` mm above the least one. Null when
 * nothing is nearer than `cutoff` mm.
 */
export function nearestOnLink(o: ConvexObstacle, p: Vec3, q: Vec3, error: number, cutoff: number): OnLink | null {
  if (o.kind === 'half-space') {
    const atStart = obstacleDistance(o, p);
    const atEnd = obstacleDistance(o, q);
    return within({ distance: Math.min(atStart, atEnd), t: atStart <= atEnd ? 0 : 1 }, cutoff);
  }
  if (o.kind === 'capsule') {
    const { origin, z } = o.frame;
    const near = segmentApproach(p, q, origin, along(origin, z, o.length));
    return within({ distance: near.distance - o.radius, t: near.s }, cutoff);
  }
  return nearestInFrame(o, pointInto(o.frame, p), pointInto(o.frame, q), error, cutoff);
}

const within = (found: OnLink, cutoff: number): OnLink | null => (found.distance < cutoff ? found : null);

const GOLDEN = (Math.sqrt(5) - 1) / 2;

/**
 * Golden section over the convex distance along a link given in the obstacle's frame. As the distance changes no faster than the
 * place, the length of the bracket bounds what is left to find, and links too far away are known early.
 */
function nearestInFrame(o: FramedObstacle, p: Vec3, q: Vec3, error: number, cutoff: number): OnLink | null {
  const [x, y, z] = p;
  const dx = q[0] - x;
  const dy = q[1] - y;
  const dz = q[2] - z;
  const link = Math.sqrt(dx * dx + dy * dy + dz * dz);
  const atStart = distanceInFrame(o, x, y, z);
  const atEnd = distanceInFrame(o, q[0], q[1], q[2]);
  if ((atStart + atEnd - link) / 2 >= cutoff) return null;
  let lo = 0;
  let hi = 1;
  let a = 1 - GOLDEN;
  let b = GOLDEN;
  let fa = distanceInFrame(o, x + dx * a, y + dy * a, z + dz * a);
  let fb = distanceInFrame(o, x + dx * b, y + dy * b, z + dz * b);
  while ((hi - lo) * link > error) {
    if (Math.min(fa, fb) - (hi - lo) * link >= cutoff) return null;
    if (fa <= fb) {
      hi = b;
      b = a;
      fb = fa;
      a = hi - GOLDEN * (hi - lo);
      fa = distanceInFrame(o, x + dx * a, y + dy * a, z + dz * a);
    } else {
      lo = a;
      a = b;
      fa = fb;
      b = lo + GOLDEN * (hi - lo);
      fb = distanceInFrame(o, x + dx * b, y + dy * b, z + dz * b);
    }
  }
  const inner = Math.min(fa, fb);
  if (atStart <= inner && atStart <= atEnd) return within({ distance: atStart, t: 0 }, cutoff);
  if (atEnd <= inner) return within({ distance: atEnd, t: 1 }, cutoff);
  return within({ distance: inner, t: fa <= fb ? a : b }, cutoff);
}
