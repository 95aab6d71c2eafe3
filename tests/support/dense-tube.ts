import type { ControlPolygon } from '../../src/geometry/path/control-polygon.js';
import type { Vec3 } from '../../src/geometry/vec3.js';

/**
 * A tube's centreline as densely set points, worked out from its intersection points and radii alone with none of the program's
 * own geometry: what routes are judged by.
 */
export interface DenseTube {
  readonly polygon: ControlPolygon;
  readonly length: number;
  /** Bend angle at every intersection point, rad. */
  readonly angles: readonly number[];
  /** Before the first bend, between bends, after the last, mm. */
  readonly straights: readonly number[];
  /** Unit direction of every straight. */
  readonly directions: readonly Vec3[];
  /** x, y, z of every point, mm. */
  readonly xyz: Float64Array;
  /** Running length at every point, mm. */
  readonly run: Float64Array;
}

/** Angles, straights and length of a polygon, without points. */
export function tubeShape({ points, clr }: ControlPolygon): Omit<DenseTube, 'polygon' | 'xyz' | 'run'> {
  const legs = points.slice(1).map((p, i) => Math.hypot(...minus(p, points[i]!)));
  const directions = points.slice(1).map((p, i): Vec3 => times(minus(p, points[i]!), 1 / legs[i]!));
  const angles = clr.map((_, i) => {
    const [u, v] = [directions[i]!, directions[i + 1]!];
    const s = Math.hypot(u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]);
    return Math.atan2(s, inner(u, v));
  });
  const tangents = [0, ...angles.map((a, i) => clr[i]! * Math.tan(a / 2)), 0];
  const straights = legs.map((l, i) => l - tangents[i]! - tangents[i + 1]!);
  const length = straights.reduce((a, b) => a + b, 0) + angles.reduce((sum, a, i) => sum + a * clr[i]!, 0);
  return { length, angles, straights, directions };
}

/** The points of a tube, at most `step` mm apart along it. */
export function denseTube(polygon: ControlPolygon, step: number): DenseTube {
  const shape = tubeShape(polygon);
  const xyz: number[] = [];
  const run: number[] = [];
  let at = 0;
  const put = (p: Vec3, r: number): void => {
    xyz.push(...p);
    run.push(r);
  };
  let from = polygon.points[0]!;
  put(from, 0);
  shape.straights.forEach((s, i) => {
    const u = shape.directions[i]!;
    const straight = Math.max(0, s);
    const pieces = Math.ceil(straight / step);
    for (let k = 1; k <= pieces; k++) put(plus(from, u, (straight * k) / pieces), at + (straight * k) / pieces);
    from = plus(from, u, straight);
    at += straight;
    const a = shape.angles[i];
    if (a === undefined || a < 1e-9) return;
    const r = polygon.clr[i]!;
    const v = shape.directions[i + 1]!;
    const side = times(minus(v, times(u, Math.cos(a))), 1 / Math.sin(a));
    const links = Math.ceil((r * a) / step);
    for (let k = 1; k <= links; k++) {
      const phi = (a * k) / links;
      put(plus(plus(from, u, r * Math.sin(phi)), side, r * (1 - Math.cos(phi))), at + r * phi);
    }
    from = plus(plus(from, u, r * Math.sin(a)), side, r * (1 - Math.cos(a)));
    at += r * a;
  });
  return { ...shape, polygon, xyz: Float64Array.from(xyz), run: Float64Array.from(run) };
}

/** Radius of a tube at a running length, mm. */
export type Radius = (run: number) => number;

/**
 * Least gap between the skins of two tubes at their points, mm, among pairs of points that `counts` by their running lengths. Never
 * less than the true gap; more by at most about step^2 / (2 distance). Stops at the first gap below `enough`.
 */
export function denseGap(
  a: DenseTube,
  b: DenseTube,
  radius: Radius,
  counts: (runA: number, runB: number) => boolean = () => true,
  enough = Number.NEGATIVE_INFINITY,
): number {
  let best = Number.POSITIVE_INFINITY;
  const radiiB = Array.from(b.run, radius);
  const widest = Math.max(...radiiB);
  for (let i = 0; i < a.run.length; i++) {
    const [x, y, z] = [a.xyz[3 * i]!, a.xyz[3 * i + 1]!, a.xyz[3 * i + 2]!];
    const r = radius(a.run[i]!);
    for (let j = 0; j < b.run.length; j++) {
      const dx = b.xyz[3 * j]! - x;
      const dy = b.xyz[3 * j + 1]! - y;
      const dz = b.xyz[3 * j + 2]! - z;
      const reach = best + r + widest;
      const d = dx * dx + dy * dy + dz * dz;
      if (d >= reach * reach || !counts(a.run[i]!, b.run[j]!)) continue;
      best = Math.min(best, Math.sqrt(d) - r - radiiB[j]!);
    }
    if (best < enough) break;
  }
  return best;
}

/** Point number i of a tube. */
export const pointAt = (t: DenseTube, i: number): Vec3 => [t.xyz[3 * i]!, t.xyz[3 * i + 1]!, t.xyz[3 * i + 2]!];

export const minus = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
export const times = (a: Vec3, k: number): Vec3 => [a[0] * k, a[1] * k, a[2] * k];
export const plus = (a: Vec3, b: Vec3, k = 1): Vec3 => [a[0] + b[0] * k, a[1] + b[1] * k, a[2] + b[2] * k];
export const inner = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
