import { pointFrom, pointInto } from '../frame.js';
import { nearestOnTriangle } from '../mesh/triangle-nearest.js';
import type { Scan } from '../scan/scan.js';
import { add, along, distance, length, scale, sub, unit, type Vec3 } from '../vec3.js';
import { type FramedObstacle, type Obstacle, obstacleDistance } from './obstacle.js';

/** What two ways to one distance may differ by, mm. */
const ROUNDING = 1e-6;

/**
 * The point of an obstacle's skin nearest to a point, mm. Of a scan every triangle is looked at: for the few places that are shown,
 * not for a search. Inside a convex solid it is the nearest place of its nearest face.
 */
export function nearestOnObstacle(o: Obstacle, p: Vec3): Vec3 {
  if (o.kind === 'half-space') return along(p, o.normal, -obstacleDistance(o, p));
  if (o.kind === 'mesh') return nearestOfTriangles(o.field.scan, p);
  const own = pointInto(o.frame, p);
  return pointFrom(o.frame, nearestInFrame(o, own));
}

function nearestOfTriangles(scan: Scan, p: Vec3): Vec3 {
  const { positions, triangles } = scan.mesh;
  const corner = (i: number): Vec3 => [positions[3 * i]!, positions[3 * i + 1]!, positions[3 * i + 2]!];
  // the tree knows how far; what lies further off along an axis is passed over
  let least = scan.approach(p, p, Number.POSITIVE_INFINITY)!.distance + ROUNDING;
  const isFar = (t: number, k: 0 | 1 | 2): boolean => {
    const [a, b, c] = [0, 1, 2].map((i) => positions[3 * triangles[t + i]! + k]! - p[k]) as [number, number, number];
    return Math.min(a, b, c) > least || Math.max(a, b, c) < -least;
  };
  let best: Vec3 = corner(triangles[0]!);
  for (let t = 0; t < triangles.length; t += 3) {
    if (isFar(t, 0) || isFar(t, 1) || isFar(t, 2)) continue;
    const at = nearestOnTriangle(p, corner(triangles[t]!), corner(triangles[t + 1]!), corner(triangles[t + 2]!));
    const away = distance(at, p);
    if (away < least) [best, least] = [at, away];
  }
  return best;
}

function nearestInFrame(o: FramedObstacle, p: Vec3): Vec3 {
  switch (o.kind) {
    case 'box':
      return nearestOnBox(o.from, o.to, p);
    case 'capsule': {
      const axis: Vec3 = [0, 0, Math.min(o.length, Math.max(0, p[2]))];
      return add(axis, scale(outwards(sub(p, axis)), o.radius));
    }
    case 'cylinder':
      return nearestOnCylinder(o.radius, o.length, p);
  }
}

/** A unit direction out of an axis; +x where the point stands on it. */
const outwards = (v: Vec3): Vec3 => (length(v) > 1e-12 ? unit(v) : [1, 0, 0]);

function nearestOnBox(from: Vec3, to: Vec3, p: Vec3): Vec3 {
  const held = p.map((v, i) => Math.min(to[i]!, Math.max(from[i]!, v))) as [number, number, number];
  if (distance(held, p) > 0) return held;
  const faces = [0, 1, 2].flatMap((i) => [from, to].map((f) => ({ i, at: f[i]!, away: Math.abs(f[i]! - p[i]!) })));
  const face = faces.reduce((a, b) => (b.away < a.away ? b : a));
  held[face.i] = face.at;
  return held;
}

function nearestOnCylinder(radius: number, end: number, p: Vec3): Vec3 {
  const out = outwards([p[0], p[1], 0]);
  const from = Math.hypot(p[0], p[1]);
  const z = Math.min(end, Math.max(0, p[2]));
  const inside = from < radius && p[2] > 0 && p[2] < end;
  if (!inside) return [out[0] * Math.min(from, radius), out[1] * Math.min(from, radius), z];
  const cap = Math.min(p[2], end - p[2]);
  if (radius - from <= cap) return [out[0] * radius, out[1] * radius, p[2]];
  return [p[0], p[1], p[2] < end / 2 ? 0 : end];
}
