import { add2, cross2, distance2, dot2, length2, scale2, sub2, type Vec2 } from '../vec2.js';
import { boxesApart, boxOf } from './side-box.js';
import { type ArcSide, arcFraction, directionAlong, type LineSide, type Side } from './sides.js';

/** A point this close to a side, mm, lies on it: well above rounding at metre size, well below what a chain of offsets may lose. */
const TOUCH_TOLERANCE = 1e-8;

/** Where two sides run this near to parallel (sine of the angle) and an end of one lies on the other, there is one touch and no second crossing. */
const TANGENT_SINE = 1e-3;

/** How far along a tangent, mm, rounding of 1e-13 mm across it can shift a crossing: sqrt(2 r 1e-13) for r up to 5 m, rounded up. */
const TANGENT_DRIFT = 1e-4;

/**
 * Points two sides share, mm. Sides that lie on one line or circle share the ends of their overlap. Ends count when they are
 * within `tolerance` of the other side, and are returned as they are, so that neighbours stay joined bit by bit.
 */
export function sideCrossings(a: Side, b: Side, tolerance: number = TOUCH_TOLERANCE): readonly Vec2[] {
  if (boxesApart(boxOf(a), boxOf(b), tolerance)) return [];
  const ends: Vec2[] = [];
  for (const p of [a.from, a.to]) if (onSide(p, b, tolerance)) ends.push(p);
  for (const p of [b.from, b.to]) {
    if (onSide(p, a, tolerance) && !ends.some((q) => distance2(p, q) <= 2 * tolerance)) ends.push(p);
  }
  const inner = solve(a, b, tolerance).filter((p) => {
    if (!onSide(p, a, tolerance) || !onSide(p, b, tolerance)) return false;
    const drift = Math.abs(cross2(directionNear(a, p), directionNear(b, p))) < TANGENT_SINE ? TANGENT_DRIFT : 1e-7;
    return !ends.some((q) => distance2(p, q) < drift);
  });
  return [...ends, ...inner];
}

/** True when a point is within `tolerance` mm of a side. */
export function onSide(p: Vec2, side: Side, tolerance: number): boolean {
  if (distance2(p, side.from) <= tolerance || distance2(p, side.to) <= tolerance) return true;
  if (side.kind === 'arc') {
    const out = sub2(p, side.centre);
    return Math.abs(length2(out) - side.radius) <= tolerance && arcFraction(side, Math.atan2(out[1], out[0])) <= 1;
  }
  const along = sub2(side.to, side.from);
  const l = length2(along);
  const out = sub2(p, side.from);
  const t = dot2(out, along) / l;
  return t >= 0 && t <= l && Math.abs(cross2(along, out)) / l <= tolerance;
}

/** Fraction of a side's length at which it passes nearest to a point on it. */
export function fractionAt(side: Side, p: Vec2): number {
  if (side.kind === 'line') {
    const along = sub2(side.to, side.from);
    return dot2(sub2(p, side.from), along) / dot2(along, along);
  }
  const t = arcFraction(side, Math.atan2(p[1] - side.centre[1], p[0] - side.centre[0]));
  if (t <= 1) return t;
  return distance2(p, side.from) < distance2(p, side.to) ? 0 : 1;
}

const directionNear = (side: Side, p: Vec2): Vec2 => directionAlong(side, fractionAt(side, p));

/** Crossings of the whole lines and circles that carry two sides. */
function solve(a: Side, b: Side, tolerance: number): Vec2[] {
  if (a.kind === 'line') return b.kind === 'line' ? lineLine(a, b) : lineCircle(a, b, tolerance);
  return b.kind === 'line' ? lineCircle(b, a, tolerance) : circleCircle(a, b, tolerance);
}

function lineLine(a: LineSide, b: LineSide): Vec2[] {
  const u = sub2(a.to, a.from);
  const v = sub2(b.to, b.from);
  const d = cross2(u, v);
  if (Math.abs(d) <= 1e-12 * length2(u) * length2(v)) return [];
  return [add2(a.from, scale2(u, cross2(sub2(b.from, a.from), v) / d))];
}

function lineCircle(line: LineSide, arc: ArcSide, tolerance: number): Vec2[] {
  const u = sub2(line.to, line.from);
  const l = length2(u);
  const unit = scale2(u, 1 / l);
  const out = sub2(arc.centre, line.from);
  const d = Math.abs(cross2(unit, out));
  const foot = add2(line.from, scale2(unit, dot2(unit, out)));
  if (d > arc.radius + tolerance) return [];
  if (d >= arc.radius - tolerance) return [foot];
  const half = Math.sqrt((arc.radius - d) * (arc.radius + d));
  return [add2(foot, scale2(unit, -half)), add2(foot, scale2(unit, half))];
}

function circleCircle(a: ArcSide, b: ArcSide, tolerance: number): Vec2[] {
  const between = sub2(b.centre, a.centre);
  const d = length2(between);
  const [sum, difference] = [a.radius + b.radius, Math.abs(a.radius - b.radius)];
  if (d <= tolerance || d > sum + tolerance || d < difference - tolerance) return [];
  const unit = scale2(between, 1 / d);
  if (d >= sum - tolerance) return [add2(a.centre, scale2(unit, a.radius))];
  if (d <= difference + tolerance) return [add2(a.centre, scale2(unit, a.radius > b.radius ? a.radius : -a.radius))];
  const x = (d * d + (a.radius - b.radius) * (a.radius + b.radius)) / (2 * d);
  const half = Math.sqrt(Math.max((a.radius - x) * (a.radius + x), 0));
  const foot = add2(a.centre, scale2(unit, x));
  const up: Vec2 = [-unit[1], unit[0]];
  return [add2(foot, scale2(up, -half)), add2(foot, scale2(up, half))];
}
