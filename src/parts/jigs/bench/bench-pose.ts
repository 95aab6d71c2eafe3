import { type Frame, pointInto, WORLD } from '../../../geometry/frame.js';
import { headingAt, type Path, pathLength } from '../../../geometry/path/path.js';
import { add, along, cross, dot, scale, sub, unit, type Vec3 } from '../../../geometry/vec3.js';

/** Step of the samples the pose rests on, mm. */
const STEP = 1;

/**
 * How a whole tube lies over the base plate: the plane that fits its centreline best (least squares) level, its longest way along
 * x, its lowest skin `lift` mm above z = 0. A frame in the world: z up from the plate. `radiusAt` is the tube's outside radius by
 * running length from the path's start, mm.
 */
export function benchPose(path: Path, radiusAt: (run: number) => number, lift: number): Frame {
  const length = pathLength(path);
  const count = Math.ceil(length / STEP);
  const headings = Array.from({ length: count + 1 }, (_, i) => headingAt(path, (length * i) / count));
  const points = headings.map((h) => h.point);
  const middle = scale(points.reduce(add, WORLD.origin), 1 / points.length);
  const axes = principalAxes(points.map((p) => sub(p, middle)));
  const x = axes[0];
  const z = facingOut(axes[2]);
  const y = cross(z, x);
  const about: Frame = { origin: middle, x, y, z };
  let low = Infinity;
  headings.forEach(({ point, direction }, i) => {
    const rise = dot(direction, z);
    const below = radiusAt((length * i) / count) * Math.sqrt(Math.max(0, 1 - rise * rise));
    low = Math.min(low, pointInto(about, point)[2] - below);
  });
  return { ...about, origin: along(middle, z, low - lift) };
}

/** The normal turned so that its largest number is positive: the same tube lies the same way. */
function facingOut(n: Vec3): Vec3 {
  const largest = [...n].sort((a, b) => Math.abs(b) - Math.abs(a))[0]!;
  return largest < 0 ? scale(n, -1) : n;
}

/** Unit axes of largest, middle and least spread of points about the origin, right-handed: Jacobi's method on the 3 x 3 of second moments. */
function principalAxes(points: readonly Vec3[]): [Vec3, Vec3, Vec3] {
  const m = [0, 1, 2].map((i) => [0, 1, 2].map((j) => points.reduce((s, p) => s + p[i]! * p[j]!, 0)));
  const v = [0, 1, 2].map((i) => [0, 1, 2].map((j) => (i === j ? 1 : 0)));
  for (let sweep = 0; sweep < 30; sweep++) {
    for (const [p, q] of [
      [0, 1],
      [0, 2],
      [1, 2],
    ] as const) {
      turnAway(m, v, p, q);
    }
  }
  const column = (k: number): Vec3 => [v[0]![k]!, v[1]![k]!, v[2]![k]!];
  const order = [0, 1, 2].sort((a, b) => m[b]![b]! - m[a]![a]!);
  const first = unit(column(order[0]!));
  const last = unit(column(order[2]!));
  return [first, cross(last, first), last];
}

/** One Jacobi turn: takes the off-diagonal number p, q to zero. */
function turnAway(m: number[][], v: number[][], p: number, q: number): void {
  const off = m[p]![q]!;
  if (Math.abs(off) < 1e-12) return;
  const angle = Math.atan2(2 * off, m[q]![q]! - m[p]![p]!) / 2;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const mixed = (row: number[]): void => {
    const [a, b] = [row[p]!, row[q]!];
    row[p] = c * a - s * b;
    row[q] = s * a + c * b;
  };
  for (const row of m) mixed(row);
  for (let k = 0; k < 3; k++) {
    const [a, b] = [m[p]![k]!, m[q]![k]!];
    m[p]![k] = c * a - s * b;
    m[q]![k] = s * a + c * b;
  }
  for (const row of v) mixed(row);
}
