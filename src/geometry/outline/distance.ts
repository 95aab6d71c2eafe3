import { add2, distance2, dot2, length2, scale2, sub2, type Vec2 } from '../vec2.js';
import { sideCrossings } from './crossings.js';
import type { Outline } from './outline.js';
import { type ArcSide, arcFraction, type LineSide, type Side, sidesOf } from './sides.js';

/** A least distance, mm, and the two points it lies between. */
export interface Nearest {
  readonly distance: number;
  readonly from: Vec2;
  readonly to: Vec2;
}

const between = (from: Vec2, to: Vec2): Nearest => ({ distance: distance2(from, to), from, to });

const least = (all: readonly Nearest[]): Nearest => all.reduce((a, b) => (b.distance < a.distance ? b : a));

/** Point of a line nearest to p. */
function footOnLine(line: LineSide, p: Vec2): Vec2 {
  const along = sub2(line.to, line.from);
  const square = dot2(along, along);
  const t = square === 0 ? 0 : Math.min(Math.max(dot2(sub2(p, line.from), along) / square, 0), 1);
  return add2(line.from, scale2(along, t));
}

/** Points of an arc on the line through its centre and p: the nearest and the furthest of its circle, where the arc has them. */
function feetOnArc(arc: ArcSide, p: Vec2): Vec2[] {
  const out = sub2(p, arc.centre);
  const l = length2(out);
  if (l === 0) return [];
  return [1, -1]
    .filter((way) => arcFraction(arc, Math.atan2(out[1] * way, out[0] * way)) <= 1)
    .map((way) => add2(arc.centre, scale2(out, (way * arc.radius) / l)));
}

/** Least distance from a point to a side, mm. */
export function pointToSide(p: Vec2, side: Side): Nearest {
  if (side.kind === 'line') return between(p, footOnLine(side, p));
  return least([side.from, side.to, ...feetOnArc(side, p)].map((q) => between(p, q)));
}

/** Least distance between two sides, mm: zero where they cross, else between ends and where both have one common normal. */
export function sideToSide(a: Side, b: Side): Nearest {
  const crossing = sideCrossings(a, b)[0];
  if (crossing !== undefined) return between(crossing, crossing);
  const back = (n: Nearest): Nearest => ({ distance: n.distance, from: n.to, to: n.from });
  return least([
    pointToSide(a.from, b),
    pointToSide(a.to, b),
    back(pointToSide(b.from, a)),
    back(pointToSide(b.to, a)),
    ...commonNormals(a, b),
  ]);
}

/** Pairs of inner points of two sides joined by a normal of both; parallel lines have theirs at an end. */
function commonNormals(a: Side, b: Side): Nearest[] {
  if (a.kind === 'line' && b.kind === 'line') return [];
  if (a.kind === 'arc' && b.kind === 'arc') {
    return feetOnArc(a, b.centre).flatMap((p) => feetOnArc(b, a.centre).map((q) => between(p, q)));
  }
  if (a.kind === 'line' && b.kind === 'arc') {
    const foot = footOnLine(a, b.centre);
    return feetOnArc(b, foot).map((q) => between(foot, q));
  }
  return commonNormals(b, a).map((n) => ({ distance: n.distance, from: n.to, to: n.from }));
}

/** Least distance from a point to the line of an outline, mm: inside and outside alike. */
export const pointToOutline = (p: Vec2, outline: Outline): Nearest =>
  least(sidesOf(outline).map((s) => pointToSide(p, s)));

/** Least distance between the lines of two outlines, mm: exact for arcs, zero where they cross, the wall where one lies inside the other. */
export function outlineToOutline(a: Outline, b: Outline): Nearest {
  const others = sidesOf(b);
  return least(sidesOf(a).flatMap((s) => others.map((o) => sideToSide(s, o))));
}
