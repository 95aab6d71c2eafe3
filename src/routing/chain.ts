import type { ControlPolygon } from '../geometry/path.js';

/** A centreline as a chain of straight links: what the search measures gaps on. Exact on straights, within 0.5 % of the CLR in bends. */
export interface Chain {
  /** Number of points. */
  readonly count: number;
  /** x, y, z of every point, mm. */
  readonly xyz: Float64Array;
  /** Running length at every point, mm. */
  readonly run: Float64Array;
}

/** Largest angle one link stands for, rad. */
const LINK_ANGLE = Math.PI / 12;

/** The shape of a polygon that limits look at: its angles and straights, and its chain. */
export interface Shape {
  readonly angles: Float64Array;
  readonly straights: Float64Array;
  readonly chain: Chain;
  /** False when tangents overlap so far that no chain can be drawn. */
  readonly drawable: boolean;
}

/**
 * Angles, straights and chain of a polygon in one pass. `splitBefore` mm before the end a point is set on the last straight,
 * so that a run-in can be told apart.
 */
export function shapeOf(polygon: ControlPolygon, splitBefore: number): Shape {
  const { points, clr } = polygon;
  const n = points.length - 2;
  const angles = new Float64Array(n);
  const straights = new Float64Array(n + 1);
  const legs = new Float64Array((n + 1) * 4);
  for (let i = 0; i <= n; i++) {
    const p = points[i]!;
    const q = points[i + 1]!;
    const x = q[0] - p[0];
    const y = q[1] - p[1];
    const z = q[2] - p[2];
    const l = Math.sqrt(x * x + y * y + z * z) || 1e-12;
    legs.set([x / l, y / l, z / l, l], i * 4);
    straights[i] = l;
  }
  let size = 3;
  for (let i = 0; i < n; i++) {
    const a = angleAt(legs, i);
    angles[i] = a;
    const t = clr[i]! * Math.tan(a / 2);
    straights[i]! -= t;
    straights[i + 1]! -= t;
    size += Math.ceil(a / LINK_ANGLE) + 1;
  }
  const drawable = straights.every((s) => s > -1e3) && angles.every((a) => a < 3.1);
  return {
    angles,
    straights,
    drawable,
    chain: drawable ? draw(polygon, legs, angles, straights, size, splitBefore) : EMPTY,
  };
}

const EMPTY: Chain = { count: 0, xyz: new Float64Array(0), run: new Float64Array(0) };

function angleAt(legs: Float64Array, i: number): number {
  const k = i * 4;
  const ux = legs[k]!;
  const uy = legs[k + 1]!;
  const uz = legs[k + 2]!;
  const vx = legs[k + 4]!;
  const vy = legs[k + 5]!;
  const vz = legs[k + 6]!;
  const cx = uy * vz - uz * vy;
  const cy = uz * vx - ux * vz;
  const cz = ux * vy - uy * vx;
  return Math.atan2(Math.sqrt(cx * cx + cy * cy + cz * cz), ux * vx + uy * vy + uz * vz);
}

function draw(
  polygon: ControlPolygon,
  legs: Float64Array,
  angles: Float64Array,
  straights: Float64Array,
  size: number,
  splitBefore: number,
): Chain {
  const { points, clr } = polygon;
  const n = angles.length;
  const xyz = new Float64Array(size * 3);
  const run = new Float64Array(size);
  let count = 0;
  let at = 0;
  const put = (x: number, y: number, z: number): void => {
    xyz[count * 3] = x;
    xyz[count * 3 + 1] = y;
    xyz[count * 3 + 2] = z;
    run[count] = at;
    count++;
  };
  put(...points[0]!);
  for (let i = 0; i < n; i++) {
    at += Math.max(0, straights[i]!);
    drawBend(i);
  }
  const end = points[n + 1]!;
  const last = straights[n]!;
  if (splitBefore > 0 && splitBefore < last) {
    at += last - splitBefore;
    const k = n * 4;
    put(end[0] - legs[k]! * splitBefore, end[1] - legs[k + 1]! * splitBefore, end[2] - legs[k + 2]! * splitBefore);
    at += splitBefore;
  } else {
    at += Math.max(0, last);
  }
  put(...end);
  return { count, xyz, run };

  /** Points of a bend: its tangent points and, between them, points moved out by half the sagitta so that links err both ways alike. */
  function drawBend(i: number): void {
    const a = angles[i]!;
    const r = clr[i]!;
    const v = points[i + 1]!;
    const k = i * 4;
    const t = r * Math.tan(a / 2);
    const links = Math.max(1, Math.ceil(a / LINK_ANGLE));
    const ux = legs[k]!;
    const uy = legs[k + 1]!;
    const uz = legs[k + 2]!;
    const sx = v[0] - ux * t;
    const sy = v[1] - uy * t;
    const sz = v[2] - uz * t;
    put(sx, sy, sz);
    const sine = Math.sin(a);
    if (sine < 1e-9) return;
    const cosine = Math.cos(a);
    const wx = (legs[k + 4]! - ux * cosine) / sine;
    const wy = (legs[k + 5]! - uy * cosine) / sine;
    const wz = (legs[k + 6]! - uz * cosine) / sine;
    const out = 1 + (1 - Math.cos(a / links / 2)) / 2;
    for (let j = 1; j <= links; j++) {
      at += (r * a) / links;
      const phi = (a * j) / links;
      const rho = j === links ? r : r * out;
      const along = rho * Math.sin(phi);
      const across = r - rho * Math.cos(phi);
      put(sx + ux * along + wx * across, sy + uy * along + wy * across, sz + uz * along + wz * across);
    }
  }
}

/** Smallest distance between links a0..a1 of one chain and b0..b1 of another, mm; `cutoff` when none is nearer than that. */
export function chainDistance(
  a: Chain,
  a0: number,
  a1: number,
  b: Chain,
  b0: number,
  b1: number,
  cutoff: number,
): number {
  let best = cutoff * cutoff;
  for (let i = a0; i < a1; i++) {
    const k = i * 3;
    const px = a.xyz[k]!;
    const py = a.xyz[k + 1]!;
    const pz = a.xyz[k + 2]!;
    const dx = a.xyz[k + 3]! - px;
    const dy = a.xyz[k + 4]! - py;
    const dz = a.xyz[k + 5]! - pz;
    const la = a.run[i + 1]! - a.run[i]!;
    for (let j = b0; j < b1; j++) {
      const m = j * 3;
      const rx = px - b.xyz[m]!;
      const ry = py - b.xyz[m + 1]!;
      const rz = pz - b.xyz[m + 2]!;
      const reach = la + b.run[j + 1]! - b.run[j]! + 1;
      const start = rx * rx + ry * ry + rz * rz;
      const limit = Math.sqrt(best) + reach;
      if (start > limit * limit) continue;
      const ex = b.xyz[m + 3]! - b.xyz[m]!;
      const ey = b.xyz[m + 4]! - b.xyz[m + 1]!;
      const ez = b.xyz[m + 5]! - b.xyz[m + 2]!;
      const d = linkDistanceSquared(dx, dy, dz, ex, ey, ez, rx, ry, rz);
      if (d < best) best = d;
    }
  }
  return Math.sqrt(best);
}

/** Squared distance of two links d and e whose starts differ by r; the plain-number form of `segmentApproach`. */
function linkDistanceSquared(
  dx: number,
  dy: number,
  dz: number,
  ex: number,
  ey: number,
  ez: number,
  rx: number,
  ry: number,
  rz: number,
): number {
  const a = dx * dx + dy * dy + dz * dz;
  const e = ex * ex + ey * ey + ez * ez;
  const f = ex * rx + ey * ry + ez * rz;
  const c = dx * rx + dy * ry + dz * rz;
  const b = dx * ex + dy * ey + dz * ez;
  const denominator = a * e - b * b;
  let s = denominator > 1e-12 * a * e ? (b * f - c * e) / denominator : 0;
  s = s < 0 ? 0 : s > 1 ? 1 : s;
  let t = e > 1e-18 ? (b * s + f) / e : 0;
  if (t < 0) {
    t = 0;
    s = a > 1e-18 ? -c / a : 0;
    s = s < 0 ? 0 : s > 1 ? 1 : s;
  } else if (t > 1) {
    t = 1;
    s = a > 1e-18 ? (b - c) / a : 0;
    s = s < 0 ? 0 : s > 1 ? 1 : s;
  }
  const x = rx + dx * s - ex * t;
  const y = ry + dy * s - ey * t;
  const z = rz + dz * s - ez * t;
  return x * x + y * y + z * z;
}

/** Number of the first point at least `fromRun` mm along the chain. */
export function pointAtRun(chain: Chain, fromRun: number): number {
  let i = 0;
  while (i < chain.count - 1 && chain.run[i]! < fromRun - 1e-9) i++;
  return i;
}
