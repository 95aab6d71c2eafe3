import { along, cross, dot, sub, type Vec3 } from '../vec3.js';

/** The point of a triangle nearest to a point, mm: over its face where it stands above it, else on the nearest of its sides. */
export function nearestOnTriangle(p: Vec3, a: Vec3, b: Vec3, c: Vec3): Vec3 {
  const normal = cross(sub(b, a), sub(c, a));
  const area = dot(normal, normal);
  if (area > 0) {
    const foot = along(p, normal, -dot(sub(p, a), normal) / area);
    const over = (u: Vec3, v: Vec3): boolean => dot(cross(sub(v, u), sub(foot, u)), normal) >= 0;
    if (over(a, b) && over(b, c) && over(c, a)) return foot;
  }
  const sides = [onSide(p, a, b), onSide(p, b, c), onSide(p, c, a)];
  return sides.reduce((best, q) => (away(q, p) < away(best, p) ? q : best));
}

function onSide(p: Vec3, a: Vec3, b: Vec3): Vec3 {
  const way = sub(b, a);
  const l = dot(way, way);
  return l > 0 ? along(a, way, Math.min(1, Math.max(0, dot(sub(p, a), way) / l))) : a;
}

function away(q: Vec3, p: Vec3): number {
  const d = sub(q, p);
  return dot(d, d);
}
