import type { Vec2 } from '../../geometry/vec2.js';

/** A circle through points as well as can be. */
export interface FittedCircle {
  readonly centre: Vec2;
  readonly radius: number;
  /** Largest distance of a point that was kept from the circle. */
  readonly worst: number;
}

/** Points further than this from the circle, mm, belong to something else: a foot, writing, a neighbouring edge. */
const STRAY = 0.1;

/** Fewest points a circle is taken from. */
const FEWEST = 8;

/**
 * Circle of least squares (Kasa's linear fit, from memory) through points that may hold strays: fitted, strays left out, fitted
 * again until none is left. Null when fewer than half of the points remain, or too few, or they do not go round.
 */
export function circleThrough(points: readonly Vec2[]): FittedCircle | null {
  let kept = points;
  for (let pass = 0; pass < 12; pass++) {
    if (kept.length < Math.max(FEWEST, points.length / 2)) return null;
    const circle = fitted(kept);
    if (circle === null) return null;
    const off = kept.map(([x, y]) => Math.abs(Math.hypot(x - circle.centre[0], y - circle.centre[1]) - circle.radius));
    const worst = Math.max(...off);
    if (worst <= STRAY) return { ...circle, worst };
    const limit = Math.max(STRAY, worst / 2);
    kept = kept.filter((_, i) => off[i]! <= limit);
  }
  return null;
}

/** x2 + y2 = 2 a x + 2 b y + c solved by its normal equations about the points' middle. */
function fitted(points: readonly Vec2[]): Omit<FittedCircle, 'worst'> | null {
  const n = points.length;
  const mx = points.reduce((s, p) => s + p[0], 0) / n;
  const my = points.reduce((s, p) => s + p[1], 0) / n;
  let [xx, xy, yy, xz, yz, z] = [0, 0, 0, 0, 0, 0];
  for (const [px, py] of points) {
    const [x, y] = [px - mx, py - my];
    const w = x * x + y * y;
    xx += x * x;
    xy += x * y;
    yy += y * y;
    xz += x * w;
    yz += y * w;
    z += w;
  }
  const det = xx * yy - xy * xy;
  if (!(det > 1e-6 * xx * yy)) return null;
  const a = (xz * yy - yz * xy) / (2 * det);
  const b = (yz * xx - xz * xy) / (2 * det);
  return { centre: [a + mx, b + my], radius: Math.sqrt(z / n + a * a + b * b) };
}
