import { cross2, dot2 } from '../vec2.js';
import type { Outline } from './outline.js';
import { directionAlong, type Side, sidesOf } from './sides.js';

/** Change of direction from the end of a side to the start of the next, rad, positive to the left. */
export function turnBetween(side: Side, next: Side): number {
  const a = directionAlong(side, 1);
  const b = directionAlong(next, 0);
  return Math.atan2(cross2(a, b), dot2(a, b));
}

/** Largest change of direction at any vertex, rad: 0 for an outline that is tangent all round. */
export function sharpestTurn(outline: Outline): number {
  const sides = sidesOf(outline);
  return Math.max(...sides.map((s, i) => Math.abs(turnBetween(s, sides[(i + 1) % sides.length]!))));
}

/** True when the outline never turns right, within 1e-9 rad. */
export function isConvex(outline: Outline): boolean {
  const sides = sidesOf(outline);
  return sides.every((s, i) => {
    const bulges = s.kind === 'line' || s.sweep > 0;
    return bulges && turnBetween(s, sides[(i + 1) % sides.length]!) > -1e-9;
  });
}
