import type { ControlPolygon } from '../geometry/path/control-polygon.js';
import type { Section } from './problem.js';
import { isOneBend } from './trial.js';

/** A tube as a chain of straight links: what the search measures gaps on. Exact on straights, within 0.5 % of the CLR in bends. */
export interface Chain {
  /** Number of points. */
  readonly count: number;
  /** x, y, z of every point, mm. */
  readonly xyz: Float64Array;
  /** Running length at every point, mm. */
  readonly run: Float64Array;
  /** Outside radius of the link after every point, mm; the last point repeats the last link's. */
  readonly radius: Float64Array;
  /** Lowest x, y, z and highest x, y, z of the centreline, mm. */
  readonly box: Float64Array;
}

/** Largest angle one link stands for, rad. */
const LINK_ANGLE = Math.PI / 12;

/** A step of a tube as it comes out on a route. */
export interface StepPlace {
  /** Where the joint falls, mm. */
  readonly run: number;
  /** How far a bend would have to move to free a place within the step's bounds, mm; 0 or less when one is free. */
  readonly blocked: number;
}

/** What limits look at: angles, straights, steps and the chain. */
export interface Shape {
  readonly angles: Float64Array;
  readonly straights: Float64Array;
  /** 1 for a straight that is none because the bends beside it are halves of one bend. */
  readonly joined: Uint8Array;
  /** Index into the runner's sections for every bend. */
  readonly sectionOf: Uint8Array;
  readonly steps: readonly StepPlace[];
  readonly chain: Chain;
  /** False when points coincide or tangents overlap so far that no chain can be drawn. */
  readonly drawable: boolean;
}

/**
 * Angles, straights, steps and chain of a polygon. So many mm before the end as `splitsBefore` says points are set where they fall
 * on straights, so that the zones before an inlet can be told apart.
 */
export function shapeOf(polygon: ControlPolygon, sections: readonly Section[], splitsBefore: readonly number[]): Shape {
  const { points, clr } = polygon;
  const n = points.length - 2;
  const angles = new Float64Array(n);
  const straights = new Float64Array(n + 1);
  const joined = new Uint8Array(n + 1);
  const legs = new Float64Array((n + 1) * 4);
  let drawable = true;
  for (let i = 0; i <= n; i++) {
    const p = points[i]!;
    const q = points[i + 1]!;
    const x = q[0] - p[0];
    const y = q[1] - p[1];
    const z = q[2] - p[2];
    const l = Math.sqrt(x * x + y * y + z * z) || 1e-12;
    const k = i * 4;
    legs[k] = x / l;
    legs[k + 1] = y / l;
    legs[k + 2] = z / l;
    straights[i] = l;
    // points that coincide have no direction between them and would hide a turn back
    if (l < 1e-6) drawable = false;
  }
  let size = 2 + sections.length + splitsBefore.length;
  for (let i = 0; i < n; i++) {
    const a = angleAt(legs, i);
    angles[i] = a;
    const t = clr[i]! * Math.tan(a / 2);
    straights[i]! -= t;
    straights[i + 1]! -= t;
    size += Math.ceil(a / LINK_ANGLE) + 1;
    if (a > 3.1) drawable = false;
  }
  for (let i = 0; i <= n; i++) {
    if (straights[i]! < -1e3) drawable = false;
    if (i > 0 && i < n && isOneBend(points, clr, i, straights[i]!)) joined[i] = 1;
  }
  const { steps, sectionOf, total } = placeSteps(angles, straights, joined, clr, sections);
  const splits = [...steps.map((s) => s.run), ...splitsBefore.map((s) => total - s)].sort((a, b) => a - b);
  const chain = drawable ? draw(polygon, legs, angles, straights, size, splits, sections, steps) : EMPTY;
  return { angles, straights, joined, sectionOf, steps, chain, drawable };
}

const NONE = new Float64Array(0);
const EMPTY: Chain = { count: 0, xyz: NONE, run: NONE, radius: NONE, box: NONE };

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

/** Where every step's joint falls: at its place when that is not within a bend, else at the nearest end of that bend, halves of one being one. */
function placeSteps(
  angles: Float64Array,
  straights: Float64Array,
  joined: Uint8Array,
  clr: readonly number[],
  sections: readonly Section[],
): { steps: StepPlace[]; sectionOf: Uint8Array; total: number } {
  const n = angles.length;
  const sectionOf = new Uint8Array(n);
  let total = 0;
  const steps: StepPlace[] = sections.slice(1).map((s) => ({ run: s.at, blocked: 0 }));
  for (let i = 0; i <= n; i++) {
    total += straights[i]!;
    if (i === n) break;
    const [first, from] = [i, total];
    total += clr[i]! * angles[i]!;
    while (joined[i + 1] === 1) total += straights[++i]! + clr[i]! * angles[i]!;
    for (let k = 0; k < steps.length; k++) {
      const { at, within } = sections[k + 1]!;
      if (from < at && total > at) {
        const blocked = Math.min(at - within - from, total - at - within);
        steps[k] = { run: at - from < total - at ? from : total, blocked };
      }
      if (steps[k]!.run <= from + 1e-9) sectionOf.fill(k + 1, first, i + 1);
    }
  }
  return { steps, sectionOf, total };
}

function draw(
  polygon: ControlPolygon,
  legs: Float64Array,
  angles: Float64Array,
  straights: Float64Array,
  size: number,
  splits: readonly number[],
  sections: readonly Section[],
  steps: readonly StepPlace[],
): Chain {
  const { points, clr } = polygon;
  const n = angles.length;
  const xyz = new Float64Array(size * 3);
  const run = new Float64Array(size);
  const box = new Float64Array([1e9, 1e9, 1e9, -1e9, -1e9, -1e9]);
  let count = 0;
  let at = 0;
  const put = (x: number, y: number, z: number): void => {
    xyz[count * 3] = x;
    xyz[count * 3 + 1] = y;
    xyz[count * 3 + 2] = z;
    run[count] = at;
    count++;
    if (x < box[0]!) box[0] = x;
    if (y < box[1]!) box[1] = y;
    if (z < box[2]!) box[2] = z;
    if (x > box[3]!) box[3] = x;
    if (y > box[4]!) box[4] = y;
    if (z > box[5]!) box[5] = z;
  };
  /** Follows a straight, setting a point at every split that falls on it. */
  const walk = (i: number): void => {
    const end = at + Math.max(0, straights[i]!);
    for (const s of splits) {
      if (s <= at + 1e-6 || s >= end - 1e-6) continue;
      const k = (count - 1) * 3;
      const d = s - at;
      const x = xyz[k]! + legs[i * 4]! * d;
      const y = xyz[k + 1]! + legs[i * 4 + 1]! * d;
      const z = xyz[k + 2]! + legs[i * 4 + 2]! * d;
      at = s;
      put(x, y, z);
    }
    at = end;
  };
  put(...points[0]!);
  for (let i = 0; i < n; i++) {
    walk(i);
    drawBend(i);
  }
  walk(n);
  put(...points[n + 1]!);
  return { count, xyz, run, radius: radii(run, count, sections, steps), box };

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
      const ahead = rho * Math.sin(phi);
      const across = r - rho * Math.cos(phi);
      put(sx + ux * ahead + wx * across, sy + uy * ahead + wy * across, sz + uz * ahead + wz * across);
    }
  }
}

/** Radius of the link after every point. */
function radii(
  run: Float64Array,
  count: number,
  sections: readonly Section[],
  steps: readonly StepPlace[],
): Float64Array {
  const radius = new Float64Array(count).fill(sections[0]!.radius);
  steps.forEach((s, k) => {
    for (let i = 0; i < count; i++) {
      const middle = i + 1 < count ? (run[i]! + run[i + 1]!) / 2 : run[i]!;
      if (middle > s.run) radius[i] = sections[k + 1]!.radius;
    }
  });
  return radius;
}

/** Smallest gap between the skins of links a0..a1 of one chain and b0..b1 of another, mm; `cutoff` when none is nearer than that. */
export function chainGap(a: Chain, a0: number, a1: number, b: Chain, b0: number, b1: number, cutoff: number): number {
  let best = cutoff;
  for (let i = a0; i < a1; i++) {
    const k = i * 3;
    const px = a.xyz[k]!;
    const py = a.xyz[k + 1]!;
    const pz = a.xyz[k + 2]!;
    const dx = a.xyz[k + 3]! - px;
    const dy = a.xyz[k + 4]! - py;
    const dz = a.xyz[k + 5]! - pz;
    const la = a.run[i + 1]! - a.run[i]!;
    const ra = a.radius[i]!;
    for (let j = b0; j < b1; j++) {
      const m = j * 3;
      const rx = px - b.xyz[m]!;
      const ry = py - b.xyz[m + 1]!;
      const rz = pz - b.xyz[m + 2]!;
      const skins = ra + b.radius[j]!;
      const reach = best + skins;
      const limit = reach + la + b.run[j + 1]! - b.run[j]! + 1;
      if (rx * rx + ry * ry + rz * rz > limit * limit) continue;
      const ex = b.xyz[m + 3]! - b.xyz[m]!;
      const ey = b.xyz[m + 4]! - b.xyz[m + 1]!;
      const ez = b.xyz[m + 5]! - b.xyz[m + 2]!;
      const d = linkDistanceSquared(dx, dy, dz, ex, ey, ez, rx, ry, rz);
      if (d < reach * reach) best = Math.sqrt(d) - skins;
    }
  }
  return best;
}

/** True when two chains' boxes stand further apart than a distance between centrelines, so that no gap can be nearer. */
export function boxesApart(a: Chain, b: Chain, distance: number): boolean {
  for (let k = 0; k < 3; k++) {
    if (a.box[k]! - b.box[k + 3]! > distance || b.box[k]! - a.box[k + 3]! > distance) return true;
  }
  return false;
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
