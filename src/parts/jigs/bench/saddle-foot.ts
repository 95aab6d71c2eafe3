import { pointHull } from '../../../geometry/outline/point-hull.js';
import { distance2, dot2, sub2, type Vec2 } from '../../../geometry/vec2.js';
import type { BenchPlan } from '../../../params/plan.js';
import { across, type Hole, type Post, postCorners } from './saddle-post.js';

/** Most pairs of holes tried at one place. */
const PAIRS = 12;

/** Radius of the foot about a hole, and of what turns in the hole, mm. */
export const lugRadius = (bench: BenchPlan): number => bench.base.hole / 2 + 5;
const headRadius = (bench: BenchPlan): number => bench.base.hole + 1;

/** Holes before and behind the post, the nearest pairs first. */
export function holePairs(post: Post, bench: BenchPlan): [Hole, Hole][] {
  const { pitch } = bench.base;
  const [cx, cy] = [Math.round(post.point[0] / pitch), Math.round(post.point[1] / pitch)];
  const reach = Math.ceil((post.halfWidth + post.halfLength + headRadius(bench)) / pitch) + 1;
  const near: { hole: Hole; u: number; cost: number }[] = [];
  for (let i = cx - reach; i <= cx + reach; i++) {
    for (let j = cy - reach; j <= cy + reach; j++) {
      const off = sub2([i * pitch, j * pitch], [post.point[0], post.point[1]]);
      const [u, v] = [dot2(off, post.level), dot2(off, across(post.level))];
      if (Math.abs(u) < post.halfLength + headRadius(bench) || Math.abs(v) > post.halfWidth) continue;
      near.push({ hole: [i, j], u, cost: Math.abs(u) + 0.5 * Math.abs(v) });
    }
  }
  const sorted = near.sort((a, b) => a.cost - b.cost || a.hole[0] - b.hole[0] || a.hole[1] - b.hole[1]);
  const front = sorted.filter((n) => n.u > 0).slice(0, 4);
  const back = sorted.filter((n) => n.u < 0).slice(0, 4);
  return front
    .flatMap((f) => back.map((b) => ({ pair: [f.hole, b.hole] as [Hole, Hole], cost: f.cost + b.cost })))
    .sort((a, b) => a.cost - b.cost)
    .slice(0, PAIRS)
    .map((p) => p.pair);
}

/** What the foot covers: both lugs and the post's base. */
export function footOf(post: Post, holes: readonly Hole[], bench: BenchPlan): Vec2[] {
  const { pitch } = bench.base;
  const r = lugRadius(bench);
  const lugs = holes.flatMap(([i, j]) =>
    Array.from({ length: 24 }, (_, k): Vec2 => {
      const a = (2 * Math.PI * k) / 24;
      return [i * pitch + r * Math.cos(a), j * pitch + r * Math.sin(a)];
    }),
  );
  return pointHull(
    [...postCorners(post), ...lugs].filter((p, i, all) => all.findIndex((q) => distance2(p, q) < 1e-9) === i),
  );
}
