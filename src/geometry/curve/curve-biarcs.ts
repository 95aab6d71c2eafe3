import { biarc, type Heading2 } from '../outline/biarc.js';
import { pointToSide } from '../outline/distance.js';
import { type Side, sideLength } from '../outline/sides.js';
import { JOIN_TOLERANCE } from '../tolerance.js';
import { distance2, sub2, unit2, type Vec2 } from '../vec2.js';
import type { FittedRun } from './arc-fit.js';

/** A curve in the plane, mm, by any parameter; smooth between the ends it is asked for. */
export type Curve2 = (t: number) => Vec2;

/** Places inside a piece where its distance from the curve is measured. */
const PROBES = 24;

/** Halvings of a piece at most: far beyond what a curve of this size needs. */
const DEEPEST = 26;

/** Widest arc taken, rad, and most a biarc may be longer than the curve: wilder ones run away between the probes. */
const MOST = { sweep: Math.PI / 2, longer: 1.02 } as const;

/** Step of the difference quotient for a tangent, as a part of the range. */
const STEP = 1e-5;

/**
 * Tangent arcs and lines along a smooth curve from one parameter to another, their ends on the curve, no further from it than
 * `tolerance` mm where it is measured: at 24 places of every piece. Throws RangeError when the curve is not smooth enough for that.
 */
export function biarcsAlong(curve: Curve2, from: number, to: number, tolerance: number): FittedRun {
  const h = (to - from) * STEP;
  const heading = (t: number): Heading2 => ({ point: curve(t), direction: tangent(curve, t, from, to, h) });
  const pieces = fitted(curve, heading(from), heading(to), from, to, { tolerance, heading, depth: 0 });
  return {
    sides: pieces.flatMap((p) => p.sides),
    deviation: pieces.reduce((most, p) => Math.max(most, p.deviation), 0),
  };
}

/** Direction of travel, by differences of second order that stay between the ends. */
function tangent(curve: Curve2, t: number, from: number, to: number, h: number): Vec2 {
  const behind = Math.abs(t - from) < Math.abs(h) * 1.5;
  const ahead = Math.abs(to - t) < Math.abs(h) * 1.5;
  if (!behind && !ahead) return unit2(sub2(curve(t + h), curve(t - h)));
  const k = behind ? h : -h;
  const [a, b, c] = [curve(t), curve(t + k), curve(t + 2 * k)];
  const way = Math.sign(k / h);
  return unit2([way * (4 * b[0] - 3 * a[0] - c[0]), way * (4 * b[1] - 3 * a[1] - c[1])]);
}

interface Fitting {
  readonly tolerance: number;
  readonly heading: (t: number) => Heading2;
  readonly depth: number;
}

function fitted(curve: Curve2, a: Heading2, b: Heading2, from: number, to: number, fit: Fitting): FittedRun[] {
  const probes = Array.from({ length: PROBES }, (_, i) => curve(from + ((to - from) * (i + 1)) / (PROBES + 1)));
  for (const sides of candidates(a, b)) {
    const deviation = deviationOf(sides, probes);
    if (deviation <= fit.tolerance && !runsAway(sides, [a.point, ...probes, b.point])) return [{ sides, deviation }];
  }
  if (fit.depth === DEEPEST) throw new RangeError(`a curve cannot be followed within ${fit.tolerance} mm`);
  const middle = (from + to) / 2;
  const m = fit.heading(middle);
  const deeper = { ...fit, depth: fit.depth + 1 };
  return [...fitted(curve, a, m, from, middle, deeper), ...fitted(curve, m, b, middle, to, deeper)];
}

/** A line where it is as good as one, else a biarc; none from a point to itself. */
function candidates(a: Heading2, b: Heading2): Side[][] {
  if (distance2(a.point, b.point) < JOIN_TOLERANCE) return [];
  const straight: Side = { kind: 'line', from: a.point, to: b.point };
  const along = unit2(sub2(b.point, a.point));
  const turn = Math.max(distance2(along, a.direction), distance2(along, b.direction));
  return turn < 1e-7 ? [[straight]] : [[...biarc(a, b)]];
}

const deviationOf = (sides: readonly Side[], probes: readonly Vec2[]): number =>
  probes.reduce((most, p) => Math.max(most, Math.min(...sides.map((s) => pointToSide(p, s).distance))), 0);

function runsAway(sides: readonly Side[], points: readonly Vec2[]): boolean {
  const curve = points.slice(1).reduce((sum, p, i) => sum + distance2(p, points[i]!), 0);
  const drawn = sides.reduce((sum, s) => sum + sideLength(s), 0);
  return drawn > curve * MOST.longer || sides.some((s) => s.kind === 'arc' && Math.abs(s.sweep) > MOST.sweep);
}
