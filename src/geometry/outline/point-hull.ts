import { cross2, sub2, type Vec2 } from '../vec2.js';

/** Convex hull of points, counter-clockwise, without points on its sides; fewer than three when they lie on one line (Andrew's monotone chain). */
export function pointHull(points: readonly Vec2[]): Vec2[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const chain = (of: readonly Vec2[]): Vec2[] => {
    const kept: Vec2[] = [];
    for (const p of of) {
      while (kept.length > 1 && turn(kept[kept.length - 2]!, kept[kept.length - 1]!, p) <= 0) kept.pop();
      kept.push(p);
    }
    return kept.slice(0, -1);
  };
  return [...chain(sorted), ...chain([...sorted].reverse())];
}

const turn = (a: Vec2, b: Vec2, c: Vec2): number => cross2(sub2(b, a), sub2(c, b));

/** How far a point lies inside a convex counter-clockwise polygon, mm; negative outside it, minus infinity for fewer than three corners. */
export function depthInHull(hull: readonly Vec2[], p: Vec2): number {
  if (hull.length < 3) return Number.NEGATIVE_INFINITY;
  const depths = hull.map((a, i) => {
    const side = sub2(hull[(i + 1) % hull.length]!, a);
    return cross2(side, sub2(p, a)) / Math.hypot(...side);
  });
  return Math.min(...depths);
}
