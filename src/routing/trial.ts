import type { Frame } from '../geometry/frame.js';
import { type ControlPolygon, polygonLength } from '../geometry/path/control-polygon.js';
import { LENGTH_TOLERANCE } from '../geometry/tolerance.js';
import { along, cross, dot, length, lerp, sub, type Vec3 } from '../geometry/vec3.js';

/**
 * An inner point of a trial. With `u` it stands for a U-bend cut from one piece: two bends of one radius in one plane with nothing
 * between, the first of them `u` rad.
 */
export interface InnerPoint {
  readonly at: Vec3;
  readonly u: number | null;
}

/**
 * A route as the search handles it: distance along the start's axis to the first bend, distance before the inlet to the last
 * one, and the points between them. By construction it leaves the port and meets the inlet on their axes.
 */
export interface Trial {
  readonly fromStart: number;
  readonly toInlet: number;
  readonly inner: readonly InnerPoint[];
  /** Centreline radius at the first bend, at every inner point, at the last bend. */
  readonly clr: readonly number[];
}

const firstBend = (trial: Trial, start: Frame): Vec3 => along(start.origin, start.z, trial.fromStart);
const lastBend = (trial: Trial, inlet: Frame): Vec3 => along(inlet.origin, inlet.z, -trial.toInlet);

/** The control polygon of a trial between a start and an inlet. */
export function polygonOf(trial: Trial, start: Frame, inlet: Frame): ControlPolygon {
  const last = lastBend(trial, inlet);
  const points: Vec3[] = [start.origin, firstBend(trial, start)];
  const clr: number[] = [trial.clr[0]!];
  for (let i = 0; i < trial.inner.length; i++) {
    const { at, u } = trial.inner[i]!;
    const radius = trial.clr[i + 1]!;
    points.push(at);
    clr.push(radius);
    if (u === null) continue;
    points.push(secondOfU(points[points.length - 2]!, at, trial.inner[i + 1]?.at ?? last, u, radius));
    clr.push(radius);
  }
  points.push(last, inlet.origin);
  clr.push(trial.clr[trial.clr.length - 1]!);
  return { points, clr };
}

/**
 * The second intersection point of a U-bend: in the plane of the points before, at and after it, at the distance where the
 * tangents of both halves meet: d = R tan(u / 2) + R tan(v / 2), with v the angle left to reach the next point.
 */
function secondOfU(before: Vec3, at: Vec3, after: Vec3, u: number, radius: number): Vec3 {
  const ahead = sub(at, before);
  const l = length(ahead) || 1;
  const e1: Vec3 = [ahead[0] / l, ahead[1] / l, ahead[2] / l];
  const on = sub(after, at);
  const x = dot(on, e1);
  const aside = along(on, e1, -x);
  const y = length(aside);
  if (y < 1e-9) return along(at, e1, radius);
  const e2: Vec3 = [aside[0] / y, aside[1] / y, aside[2] / y];
  const c = Math.cos(u);
  const s = Math.sin(u);
  const excess = (d: number): number => {
    const vx = x - d * c;
    const vy = y - d * s;
    const v = Math.atan2(c * vy - s * vx, c * vx + s * vy);
    return d - radius * (Math.tan(u / 2) + Math.tan(Math.max(0, Math.min(v, 3.1)) / 2));
  };
  const d = secant(excess, radius, 2 * radius * Math.tan(u / 2));
  return along(along(at, e1, d * c), e2, d * s);
}

function secant(f: (t: number) => number, t0: number, t1: number): number {
  let a = t0;
  let b = t1 === t0 ? t0 * 1.01 : t1;
  let fa = f(a);
  let fb = f(b);
  for (let i = 0; i < 40 && Math.abs(fb) > 1e-12 && fb !== fa; i++) {
    const c = b - (fb * (b - a)) / (fb - fa);
    a = b;
    fa = fb;
    b = Number.isFinite(c) ? Math.min(Math.max(c, 0), 1e5) : a;
    fb = f(b);
  }
  return b;
}

/**
 * The trial stretched or shrunk to a target length: inner points move along their offset from the line between first and last
 * bend; with no inner points both end legs change alike. Null when no such trial exists on that line.
 */
export function fitLength(trial: Trial, start: Frame, inlet: Frame, target: number): Trial | null {
  const { vary, asItIs } = variationOf(trial, start, inlet);
  const straight = trial.inner.length === 0;
  const excess = (t: number): number => lengthOf(vary(t), start, inlet) - target;
  const root = straight ? rootNear(excess, asItIs, 40, -1e4) : rootNear(excess, asItIs, 0.15, 0);
  return root === null ? null : vary(root);
}

/** What `fitLength` varies, and the value at which the trial is as it is. */
function variationOf(trial: Trial, start: Frame, inlet: Frame): { vary: (t: number) => Trial; asItIs: 0 | 1 } {
  return trial.inner.length === 0
    ? { vary: legVariation(trial), asItIs: 0 }
    : { vary: offsetVariation(trial, start, inlet), asItIs: 1 };
}

/** Part of the variation over which its slope is measured. */
const NEARBY = 1e-4;

/**
 * A trial that has a target length but for a trace, brought to it by as little as that takes: Newton's method, where `fitLength`
 * might go on to another trial of that length. The trial as it is when it stands where the length hardly changes.
 */
export function trimLength(trial: Trial, start: Frame, inlet: Frame, target: number): Trial {
  const { vary, asItIs } = variationOf(trial, start, inlet);
  const excess = (t: number): number => lengthOf(vary(t), start, inlet) - target;
  const slope = (excess(asItIs + NEARBY) - excess(asItIs - NEARBY)) / (2 * NEARBY);
  let t: number = asItIs;
  for (let i = 0; i < 8; i++) {
    const over = excess(t);
    if (Math.abs(over) < 1e-11) break;
    t -= over / slope;
  }
  return Math.abs(t - asItIs) < NEARBY ? vary(t) : trial;
}

const legVariation =
  (trial: Trial) =>
  (t: number): Trial => ({ ...trial, fromStart: trial.fromStart + t, toInlet: trial.toInlet + t });

function offsetVariation(trial: Trial, start: Frame, inlet: Frame): (t: number) => Trial {
  const a = firstBend(trial, start);
  const b = lastBend(trial, inlet);
  const n = trial.inner.length;
  const base = trial.inner.map((_, i) => lerp(a, b, (i + 1) / (n + 1)));
  return (t) => ({ ...trial, inner: trial.inner.map((p, i) => ({ at: lerp(base[i]!, p.at, t), u: p.u })) });
}

/** A root of f near a start, to the last bits of the length: bracketed outwards, then found by false position. */
function rootNear(f: (t: number) => number, start: number, firstStep: number, lowest: number): number | null {
  let b = start;
  let fb = f(b);
  if (Math.abs(fb) < 1e-11) return b;
  let step = fb < 0 ? firstStep : -firstStep;
  for (let i = 0; i < 24; i++) {
    const a = b;
    const fa = fb;
    b = Math.max(lowest, a + step);
    fb = f(b);
    if (!Number.isFinite(fb)) return null;
    if (fa * fb <= 0) return illinois(f, a, fa, b, fb);
    if (b === lowest) return null;
    step *= 1.7;
  }
  return null;
}

/**
 * Root in a bracket by the Illinois variant of false position (Dowell and Jarratt, 1971). Null where the bracket holds a jump: a
 * U-bend that can no longer be drawn has one.
 */
function illinois(f: (t: number) => number, a0: number, fa0: number, b0: number, fb0: number): number | null {
  let [a, fa, b, fb] = [a0, fa0, b0, fb0];
  for (let i = 0; i < 60; i++) {
    const c = (a * fb - b * fa) / (fb - fa);
    const fc = f(c);
    if (Math.abs(fc) < 1e-11) return c;
    if (fc * fb < 0) {
      a = b;
      fa = fb;
    } else {
      fa /= 2;
    }
    b = c;
    fb = fc;
  }
  return Math.abs(fb) < LENGTH_TOLERANCE ? b : null;
}

/**
 * Centreline length of a trial, mm. Without U-bends the same closed sum as `polygonLength`, free of allocations: the search
 * spends its time here.
 */
export function lengthOf(trial: Trial, start: Frame, inlet: Frame): number {
  for (const p of trial.inner) if (p.u !== null) return polygonLength(polygonOf(trial, start, inlet));
  const last = lastBend(trial, inlet);
  const n = trial.inner.length;
  let total = trial.fromStart + trial.toInlet;
  let p = start.origin;
  let q = firstBend(trial, start);
  for (let i = 0; i <= n + 1; i++) {
    const r = i < n ? trial.inner[i]!.at : i === n ? last : inlet.origin;
    const ux = q[0] - p[0];
    const uy = q[1] - p[1];
    const uz = q[2] - p[2];
    const vx = r[0] - q[0];
    const vy = r[1] - q[1];
    const vz = r[2] - q[2];
    const cx = uy * vz - uz * vy;
    const cy = uz * vx - ux * vz;
    const cz = ux * vy - uy * vx;
    const angle = Math.atan2(Math.sqrt(cx * cx + cy * cy + cz * cz), ux * vx + uy * vy + uz * vz);
    total += trial.clr[i]! * (angle - 2 * Math.tan(angle / 2));
    if (i <= n) total += Math.sqrt(vx * vx + vy * vy + vz * vz);
    p = q;
    q = r;
  }
  return total;
}

/** What the halves of one bend may differ by, mm and rad. */
const ONE_BEND = 1e-9;

/** True when the straight between two bends is none and both turn the same way in one plane: halves of one bend. */
export function isOneBend(points: readonly Vec3[], clr: readonly number[], i: number, straight: number): boolean {
  if (Math.abs(straight) > ONE_BEND || Math.abs(clr[i - 1]! - clr[i]!) > 1e-9) return false;
  const a = cross(sub(points[i]!, points[i - 1]!), sub(points[i + 1]!, points[i]!));
  const b = cross(sub(points[i + 1]!, points[i]!), sub(points[i + 2]!, points[i + 1]!));
  return dot(a, b) > 0 && length(cross(a, b)) < ONE_BEND * length(a) * length(b);
}
