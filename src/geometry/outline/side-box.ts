import { distance2, type Vec2 } from '../vec2.js';
import type { Side } from './sides.js';

/** An upright box that holds a side, mm; round an arc it may be a little larger than need be. */
export interface SideBox {
  readonly left: number;
  readonly low: number;
  readonly right: number;
  readonly high: number;
}

/** A box round a side: for an arc the box of the disc about its chord's middle that holds it. */
export function boxOf(side: Side): SideBox {
  const [x, y] = side.from;
  const [u, v] = side.to;
  if (side.kind === 'line')
    return { left: Math.min(x, u), low: Math.min(y, v), right: Math.max(x, u), high: Math.max(y, v) };
  const middle: Vec2 = [(x + u) / 2, (y + v) / 2];
  const off = distance2(middle, side.centre);
  // Up to half a turn the ends of the chord are furthest from its middle, beyond it the far side of the circle.
  const reach =
    Math.abs(side.sweep) <= Math.PI
      ? Math.max(distance2(side.from, side.to) / 2, side.radius - off)
      : side.radius + off;
  return { left: middle[0] - reach, low: middle[1] - reach, right: middle[0] + reach, high: middle[1] + reach };
}

/** True when two boxes are further apart than a gap, mm, along x or y. */
export const boxesApart = (a: SideBox, b: SideBox, gap: number): boolean =>
  a.left > b.right + gap || b.left > a.right + gap || a.low > b.high + gap || b.low > a.high + gap;

/** True when a point lies further than a gap, mm, outside a box along x or y. */
export const pointApart = (p: Vec2, box: SideBox, gap: number): boolean =>
  p[0] < box.left - gap || p[0] > box.right + gap || p[1] < box.low - gap || p[1] > box.high + gap;
