import { dot2, sub2, type Vec2 } from '../../../geometry/vec2.js';

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
