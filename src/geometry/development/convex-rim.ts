import { wrapTwoPi } from '../angle.js';
import { add2, dot2, type Vec2 } from '../vec2.js';

/**
 * A closed convex curve by the direction of its outward normal, rad, counter-clockwise once round: over each span the points whose
 * normal it is. A span of one point is a corner; where spans do not meet a straight edge joins them.
 */
export interface ConvexRim {
  readonly spans: readonly RimSpan[];
}

/** Ends where the next begins; the last a full turn after the first. */
export interface RimSpan {
  readonly from: number;
  readonly to: number;
  readonly at: (normal: number) => Vec2;
}

/** An ellipse: half axes mm, the first along `turn` rad from x. */
export interface Ellipse {
  readonly centre: Vec2;
  readonly along: number;
  readonly across: number;
  readonly turn: number;
}

const TURN = 2 * Math.PI;

/** Places at which the outermost of several curves is looked for. */
const PLACES = 720;

/** A circle. Throws RangeError unless the diameter is above zero. */
export function circleRim(centre: Vec2, diameter: number): ConvexRim {
  if (!(diameter > 0)) throw new RangeError(`a rim has a diameter over 0 mm, not ${diameter}`);
  const r = diameter / 2;
  return {
    spans: [{ from: 0, to: TURN, at: (a) => [centre[0] + r * Math.cos(a), centre[1] + r * Math.sin(a)] }],
  };
}

/** A rectangle about the origin with corners of a radius, 0 for sharp ones, mm. Throws RangeError when they do not fit. */
export function rectangleRim(width: number, depth: number, corner: number): ConvexRim {
  const [w, d] = [width / 2 - corner, depth / 2 - corner];
  if (!(width > 0 && depth > 0 && corner >= 0 && w >= 0 && d >= 0)) {
    throw new RangeError(`corners of ${corner} mm do not fit a rectangle of ${width} x ${depth} mm`);
  }
  const middles: readonly Vec2[] = [
    [w, d],
    [-w, d],
    [-w, -d],
    [w, -d],
  ];
  return {
    spans: middles.map(([x, y], i) => ({
      from: (i * Math.PI) / 2,
      to: ((i + 1) * Math.PI) / 2,
      at: (a) => [x + corner * Math.cos(a), y + corner * Math.sin(a)],
    })),
  };
}

/**
 * The convex hull of ellipses: the one that reaches furthest in a direction stands for it. h = c n + hypot(along cos, across sin).
 * Throws RangeError for none.
 */
export function hullRim(ellipses: readonly Ellipse[]): ConvexRim {
  if (ellipses.length === 0) throw new RangeError('a hull of nothing has no rim');
  const reach = (e: Ellipse, a: number): number => dot2(pointOf(e, a), [Math.cos(a), Math.sin(a)]);
  const furthest = (a: number): number => {
    const all = ellipses.map((e) => reach(e, a));
    const most = Math.max(...all);
    return all.findIndex((h) => most - h < 1e-9);
  };
  const starts: { readonly angle: number; readonly of: number }[] = [];
  for (let i = 0; i < PLACES; i++) {
    // Off the quarters, where symmetrical curves swap.
    let [low, high] = [((i + 0.137) * TURN) / PLACES, ((i + 1.137) * TURN) / PLACES];
    const [before, after] = [furthest(low), furthest(high)];
    if (before === after) continue;
    for (let k = 0; k < 60; k++) {
      const middle = (low + high) / 2;
      if (reach(ellipses[before]!, middle) >= reach(ellipses[after]!, middle)) low = middle;
      else high = middle;
    }
    starts.push({ angle: (low + high) / 2, of: after });
  }
  if (starts.length === 0) return { spans: [{ from: 0, to: TURN, at: (a) => pointOf(ellipses[furthest(0)]!, a) }] };
  return {
    spans: starts.map(({ angle, of }, i) => ({
      from: angle,
      to: i + 1 < starts.length ? starts[i + 1]!.angle : starts[0]!.angle + TURN,
      at: (a) => pointOf(ellipses[of]!, a),
    })),
  };
}

/** The point of an ellipse with an outward normal, rad. */
function pointOf(e: Ellipse, normal: number): Vec2 {
  const [c, s] = [Math.cos(normal - e.turn), Math.sin(normal - e.turn)];
  const h = Math.hypot(e.along * c, e.across * s);
  const [u, v] = [(e.along * e.along * c) / h, (e.across * e.across * s) / h];
  const [ct, st] = [Math.cos(e.turn), Math.sin(e.turn)];
  return add2(e.centre, [u * ct - v * st, u * st + v * ct]);
}

/** The points of a rim for a normal, rad, by the span that holds another normal `near` it. */
export function rimPoint(rim: ConvexRim, normal: number, near: number): Vec2 {
  const first = rim.spans[0]!.from;
  const within = first + wrapTwoPi(near - first);
  const span = rim.spans.find((s) => within < s.to) ?? rim.spans.at(-1)!;
  return span.at(normal);
}
