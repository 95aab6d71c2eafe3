import { add2, cross2, dot2, scale2, sub2, type Vec2 } from '../vec2.js';
import { type Side, sideBetween } from './sides.js';

/** A point and the unit direction of travel there. */
export interface Heading2 {
  readonly point: Vec2;
  readonly direction: Vec2;
}

/** Flatter arcs, by bulge, are lines: they turn by less than 4e-10 rad. */
const FLAT = 1e-10;

/**
 * Two arcs that leave one heading and meet another, tangent at both and where they join, with equal tangent lengths d:
 * d^2 2 (1 - t1 t2) + 2 d v (t1 + t2) = v v, v from point to point. Source: the usual biarc construction (Bolton, Biarc curves,
 * Computer-Aided Design 7, 1975, from memory). Throws RangeError when the points are one.
 */
export function biarc(from: Heading2, to: Heading2): readonly [Side, Side] {
  const v = sub2(to.point, from.point);
  const bend = sub2(from.direction, to.direction);
  const vt = dot2(v, add2(from.direction, to.direction));
  const d = dot2(v, v) / (vt + Math.sqrt(vt * vt + dot2(bend, bend) * dot2(v, v)));
  if (!Number.isFinite(d))
    throw new RangeError('no biarc between headings this far apart in direction or on one point');
  const middle = scale2(add2(add2(from.point, to.point), scale2(bend, d)), 0.5);
  return [
    arcThrough(from.point, middle, halfTurn(from.direction, sub2(middle, from.point))),
    arcThrough(middle, to.point, halfTurn(sub2(to.point, middle), to.direction)),
  ];
}

/** Signed angle between two directions, rad: half of what an arc turns between its tangent and its chord. */
const halfTurn = (a: Vec2, b: Vec2): number => Math.atan2(cross2(a, b), dot2(a, b));

function arcThrough(from: Vec2, to: Vec2, half: number): Side {
  const bulge = Math.tan(half / 2);
  return sideBetween(from, to, Math.abs(bulge) < FLAT ? 0 : bulge);
}
