import type { Outline } from '../../geometry/outline/outline.js';
import { distance2, type Vec2 } from '../../geometry/vec2.js';
import type { Pattern } from './pattern.js';

/** Corners this close, mm, are one. */
const SAME = 1e-6;

/** What is cut round a pattern: its outline with the tab on it; the seam between them is only marked. */
export function cutContour({ outline, tab }: Pattern): Outline {
  if (tab === null) return outline;
  const [v, t] = [outline.vertices, tab.vertices];
  const at = (p: { readonly x: number; readonly y: number }): Vec2 => [p.x, p.y];
  for (const [i, a] of v.entries()) {
    const b = v[(i + 1) % v.length]!;
    // The tab runs the same way round, so their common side is run the other way.
    const k = t.findIndex(
      (p, n) => distance2(at(p), at(b)) < SAME && distance2(at(t[(n + 1) % t.length]!), at(a)) < SAME,
    );
    if (k < 0 || a.bulge !== 0) continue;
    const beyond = Array.from({ length: t.length - 2 }, (_, n) => t[(k + 2 + n) % t.length]!);
    return { vertices: [...v.slice(0, i + 1), ...beyond, ...v.slice(i + 1)] };
  }
  return outline;
}

/** The line the other end of the paper is laid to, mm; null where there is no tab. */
export function seamLine({ outline, tab }: Pattern): readonly [Vec2, Vec2] | null {
  if (tab === null) return null;
  const on = tab.vertices
    .filter((p) => outline.vertices.some((q) => distance2([p.x, p.y], [q.x, q.y]) < SAME))
    .map((p): Vec2 => [p.x, p.y]);
  return on.length === 2 ? [on[0]!, on[1]!] : null;
}
