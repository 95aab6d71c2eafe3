import { cross2, dot2, sub2, type Vec2 } from '../../../geometry/vec2.js';

/** Corners of the convex hull of points, counter-clockwise (Andrew's monotone chain). */
export function convexHull(points: readonly Vec2[]): Vec2[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const chain = (list: readonly Vec2[]): Vec2[] => {
    const out: Vec2[] = [];
    for (const p of list) {
      while (out.length >= 2 && cross2(sub2(out.at(-1)!, out.at(-2)!), sub2(p, out.at(-1)!)) <= 0) out.pop();
      out.push(p);
    }
    return out.slice(0, -1);
  };
  return [...chain(sorted), ...chain([...sorted].reverse())];
}

/** True when two convex polygons, counter-clockwise, are parted by a strip of at least `gap` mm square to one of their sides. */
export function convexApart(a: readonly Vec2[], b: readonly Vec2[], gap: number): boolean {
  return partedBySide(a, b, gap) || partedBySide(b, a, gap);
}

function partedBySide(a: readonly Vec2[], b: readonly Vec2[], gap: number): boolean {
  return a.some((p, i) => {
    const [dx, dy] = sub2(a[(i + 1) % a.length]!, p);
    const l = Math.hypot(dx, dy);
    const out: Vec2 = [dy / l, -dx / l];
    return b.every((q) => dot2(sub2(q, p), out) >= gap);
  });
}
