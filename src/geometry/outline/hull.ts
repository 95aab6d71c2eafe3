import { wrapTwoPi } from '../angle.js';
import { distance2, dot2, length2, sub2, type Vec2 } from '../vec2.js';
import { rejoinSides } from './chain.js';
import type { Outline } from './outline.js';
import { arcAbout, outlineOfSides, type Side, sidesOf } from './sides.js';

/** What a hull can rest on: a corner (radius 0) or an arc that bulges outward, with the outward directions it covers. */
interface Support {
  readonly centre: Vec2;
  /** mm. */
  readonly radius: number;
  /** First outward direction, rad, and how far the directions run on counter-clockwise. */
  readonly start: number;
  readonly span: number;
}

/** A support met next when turning counter-clockwise, and the turn to it, rad. */
interface Step {
  readonly support: Support;
  readonly turn: number;
}

/** Outward directions this near, rad, are one. */
const SAME_DIRECTION = 1e-9;

/** Circles whose radii differ by their distance to within this part of it touch from within. */
const TOUCHING = 1e-10;

const TURN = 2 * Math.PI;

/**
 * Convex hull of counter-clockwise outlines: their outward arcs and corners joined by common tangents, exact. The outward
 * direction is turned once round and each support is left for the first that stands out further. Throws RangeError for no outlines.
 */
export function hullOf(outlines: readonly Outline[]): Outline {
  const supports = outlines.flatMap((o) => sidesOf(o).flatMap(supportsOf));
  if (supports.length === 0) throw new RangeError('a hull needs an outline');
  const sides: Side[] = [];
  let current = furthest(supports);
  const start = pointOf(current, 0);
  let at = start;
  const lineTo = (to: Vec2): void => {
    if (distance2(at, to) > SAME_DIRECTION) sides.push({ kind: 'line', from: at, to });
    at = to;
  };
  let direction = 0;
  for (let guard = 0; direction < TURN - SAME_DIRECTION; guard++) {
    if (guard > 4 * supports.length) throw new Error('the hull of these outlines does not close');
    const next = nextSupport(supports, current, direction, at);
    const turn = Math.min(next?.turn ?? TURN, TURN - direction);
    if (current.radius > 0 && turn > SAME_DIRECTION) {
      const arc = arcAbout(current.centre, current.radius, direction, turn);
      sides.push(arc);
      at = arc.to;
    }
    direction += turn;
    if (next === null || direction >= TURN - SAME_DIRECTION) break;
    lineTo(pointOf(next.support, direction));
    current = next.support;
  }
  lineTo(start);
  return outlineOfSides(rejoinSides(sides));
}

function supportsOf(side: Side): Support[] {
  const corner: Support = { centre: side.from, radius: 0, start: 0, span: TURN };
  if (side.kind === 'line' || side.sweep < 0) return [corner];
  return [corner, { centre: side.centre, radius: side.radius, start: side.start, span: side.sweep }];
}

const pointOf = (s: Support, direction: number): Vec2 => [
  s.centre[0] + s.radius * Math.cos(direction),
  s.centre[1] + s.radius * Math.sin(direction),
];

/** True when a support covers the directions from here on. */
const coversFrom = (s: Support, direction: number): boolean =>
  s.span >= TURN || wrapTwoPi(direction - s.start + SAME_DIRECTION) <= s.span;

/** The support furthest to the right; of several, the highest. */
function furthest(supports: readonly Support[]): Support {
  const open = supports.filter((s) => coversFrom(s, 0));
  const out = (s: Support): number => s.centre[0] + s.radius;
  const most = Math.max(...open.map(out));
  return open.filter((s) => out(s) > most - 1e-9).reduce((a, b) => (b.centre[1] > a.centre[1] ? b : a));
}

/** First support that stands out as far as the current one when the outward direction turns on; of several on one line the last. */
function nextSupport(supports: readonly Support[], current: Support, direction: number, at: Vec2): Step | null {
  let best: (Step & { readonly ahead: number }) | null = null;
  for (const support of supports) {
    const turn = turnTo(current, support, direction);
    if (turn === null || !coversFrom(support, direction + turn)) continue;
    const to = pointOf(support, direction + turn);
    const from = current.radius > 0 ? pointOf(current, direction + turn) : at;
    const ahead = dot2(sub2(to, from), [-Math.sin(direction + turn), Math.cos(direction + turn)]);
    if (ahead < -1e-9) continue;
    const nearer = best === null || turn < best.turn - SAME_DIRECTION;
    if (nearer || (turn < best!.turn + SAME_DIRECTION && ahead > best!.ahead + 1e-9)) best = { support, turn, ahead };
  }
  return best;
}

/** Turn until `other` stands out as far as `current` and then further: |d| cos(a - way) = current.radius - other.radius, rising. */
function turnTo(current: Support, other: Support, direction: number): number | null {
  if (other === current) return null;
  const between = sub2(other.centre, current.centre);
  const d = length2(between);
  if (!(d > 1e-9)) return null;
  const k = (current.radius - other.radius) / d;
  if (Math.abs(k) > 1 + TOUCHING) return null;
  const touches = Math.abs(k) > 1 - TOUCHING;
  const rise = Math.atan2(between[1], between[0]) - (touches ? Math.acos(Math.sign(k)) : Math.acos(k));
  const wrapped = wrapTwoPi(rise - direction);
  const turn = wrapped > TURN - SAME_DIRECTION ? 0 : wrapped;
  // A circle that touches this one from within stands out no further: it takes over only where this arc ends.
  return touches && k > 0 && coversFrom(current, direction + turn) ? null : turn;
}
