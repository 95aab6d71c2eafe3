import type { Frame } from '../geometry/frame.js';
import type { ControlPolygon } from '../geometry/path.js';
import type { Vec3 } from '../geometry/vec3.js';
import type { Random } from './random.js';
import { normal } from './random.js';

/**
 * A route as the search handles it: distance along the port's axis to the first bend, distance before the inlet to the last
 * one, and the intersection points between them. By construction it leaves the port and meets the inlet on their axes.
 */
export interface Trial {
  readonly fromPort: number;
  readonly toInlet: number;
  readonly inner: readonly Vec3[];
  /** Centreline radius of every bend from the port on: two more than inner points. */
  readonly clr: readonly number[];
}

/** The control polygon of a trial between a port and an inlet. */
export function polygonOf(trial: Trial, port: Frame, inlet: Frame): ControlPolygon {
  return {
    points: [port.origin, firstBend(trial, port), ...trial.inner, lastBend(trial, inlet), inlet.origin],
    clr: trial.clr,
  };
}

function firstBend(trial: Trial, port: Frame): Vec3 {
  const { origin: o, z } = port;
  const k = trial.fromPort;
  return [o[0] + z[0] * k, o[1] + z[1] * k, o[2] + z[2] * k];
}

function lastBend(trial: Trial, inlet: Frame): Vec3 {
  const { origin: o, z } = inlet;
  const k = -trial.toInlet;
  return [o[0] + z[0] * k, o[1] + z[1] * k, o[2] + z[2] * k];
}

/**
 * The trial stretched or shrunk to a target length: inner points move along their offset from the line between first and last
 * bend; with no inner points both end legs change alike. Null when no such trial exists on that line.
 */
export function fitLength(trial: Trial, port: Frame, inlet: Frame, target: number): Trial | null {
  const vary = trial.inner.length === 0 ? legVariation(trial) : offsetVariation(trial, port, inlet);
  const start = trial.inner.length === 0 ? 0 : 1;
  const excess = (t: number): number => lengthOf(vary(t), port, inlet) - target;
  const root = rootNear(excess, start, trial.inner.length === 0 ? 40 : 0.15, trial.inner.length === 0 ? -1e4 : 0);
  return root === null ? null : vary(root);
}

const legVariation =
  (trial: Trial) =>
  (t: number): Trial => ({ ...trial, fromPort: trial.fromPort + t, toInlet: trial.toInlet + t });

function offsetVariation(trial: Trial, port: Frame, inlet: Frame): (t: number) => Trial {
  const a = firstBend(trial, port);
  const b = lastBend(trial, inlet);
  const n = trial.inner.length;
  const base = trial.inner.map((_, i): Vec3 => {
    const f = (i + 1) / (n + 1);
    return [a[0] + (b[0] - a[0]) * f, a[1] + (b[1] - a[1]) * f, a[2] + (b[2] - a[2]) * f];
  });
  return (t) => ({
    ...trial,
    inner: trial.inner.map((p, i): Vec3 => {
      const o = base[i]!;
      return [o[0] + (p[0] - o[0]) * t, o[1] + (p[1] - o[1]) * t, o[2] + (p[2] - o[2]) * t];
    }),
  });
}

/** A root of f near a start, to the last bits of the length: bracketed outwards, then found by Brent-like secant steps. */
function rootNear(f: (t: number) => number, start: number, firstStep: number, lowest: number): number | null {
  let a = start;
  let fa = f(a);
  if (Math.abs(fa) < 1e-11) return a;
  let step = fa < 0 ? firstStep : -firstStep;
  let b = a;
  let fb = fa;
  for (let i = 0; i < 24; i++) {
    a = b;
    fa = fb;
    b = Math.max(lowest, a + step);
    fb = f(b);
    if (!Number.isFinite(fb)) return null;
    if (fa * fb <= 0) return illinois(f, a, fa, b, fb);
    if (b === lowest) return null;
    step *= 1.7;
  }
  return null;
}

/** Root in a bracket by the Illinois variant of false position (Dowell and Jarratt, 1971). */
function illinois(f: (t: number) => number, a0: number, fa0: number, b0: number, fb0: number): number {
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
  return b;
}

/** Centreline length of a trial, mm. The same closed sum as `polygonLength`, without its allocations: the search spends its time here. */
export function lengthOf(trial: Trial, port: Frame, inlet: Frame): number {
  const first = firstBend(trial, port);
  const last = lastBend(trial, inlet);
  const n = trial.inner.length;
  let total = trial.fromPort + trial.toInlet;
  let p = port.origin;
  let q = first;
  for (let i = 0; i <= n + 1; i++) {
    const r = i < n ? trial.inner[i]! : i === n ? last : inlet.origin;
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

/** A random unit vector. */
export function randomDirection(random: Random): Vec3 {
  const x = normal(random);
  const y = normal(random);
  const z = normal(random);
  const l = Math.sqrt(x * x + y * y + z * z) || 1;
  return [x / l, y / l, z / l];
}
