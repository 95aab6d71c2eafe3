import { cross2, distance2, dot2, sub2, type Vec2 } from '../vec2.js';
import type { Outline } from './outline.js';
import { type Side, sidesOf } from './sides.js';

/**
 * How often sides turn counter-clockwise round a point: the sum of the angles of their chords, plus one turn for every arc
 * whose segment (between chord and arc) holds the point. Exact for arcs; a point on a side has no sure answer.
 */
export function windingNumber(p: Vec2, sides: readonly Side[]): number {
  let angle = 0;
  let turns = 0;
  for (const s of sides) {
    const a = sub2(s.from, p);
    const b = sub2(s.to, p);
    const cross = cross2(a, b) + 0; // + 0 makes a negative zero positive: a point on the chord counts as left of it
    angle += Math.atan2(cross, dot2(a, b));
    if (s.kind === 'arc' && inSegment(p, s, cross)) turns += Math.sign(s.sweep);
  }
  return Math.round(angle / (2 * Math.PI)) + turns;
}

function inSegment(p: Vec2, arc: Side & { readonly kind: 'arc' }, cross: number): boolean {
  const left = cross >= 0;
  const bulgesLeft = arc.sweep < 0;
  const inCircle = distance2(p, arc.centre) < arc.radius;
  // Up to a half circle the segment is the part of the disc on the bulging side of the chord; so it is beyond a half circle too.
  return inCircle && left === bulgesLeft;
}

/** True when a point lies inside an outline, whichever way that runs. */
export const outlineContains = (outline: Outline, p: Vec2): boolean => windingNumber(p, sidesOf(outline)) !== 0;
