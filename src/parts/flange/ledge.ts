import { outlineContains } from '../../geometry/outline/contains.js';
import { pointToOutline } from '../../geometry/outline/distance.js';
import type { Outline } from '../../geometry/outline/outline.js';
import { pointAlong, sideLength, sidesOf } from '../../geometry/outline/sides.js';
import { sub2, type Vec2 } from '../../geometry/vec2.js';

/** Distance between two points a ledge is looked for at, along the contour, mm: far below what a file can feel. */
const SPACING = 1;

/** The step the gas meets at one point of a contour. */
export interface LedgePoint {
  /** On the head face, mm. */
  readonly at: Vec2;
  /** From the middle of the contour, rad counter-clockwise from x, seen from the tubes. */
  readonly angle: number;
  /** Height of the wall that faces the gas, mm; 0 where the next contour is as wide or wider. */
  readonly height: number;
}

/** The steps all round a contour and the highest of them. */
export interface LedgeProfile {
  /** All round. */
  readonly points: readonly LedgePoint[];
  /** Where it is highest. */
  readonly most: LedgePoint;
}

/**
 * How far what comes next stands into the gas at every point of a contour: the distance to the next contour where the point lies
 * outside of it. Points are a millimetre apart at most and hold every corner.
 */
export function ledgesOf(upstream: Outline, downstream: Outline, centre: Vec2): LedgeProfile {
  const points = sidesOf(upstream).flatMap((side) => {
    const pieces = Math.max(Math.ceil(sideLength(side) / SPACING), 1);
    return Array.from({ length: pieces }, (_, i): LedgePoint => {
      const at = pointAlong(side, i / pieces);
      const [x, y] = sub2(at, centre);
      const height = outlineContains(downstream, at) ? 0 : pointToOutline(at, downstream).distance;
      return { at, angle: Math.atan2(y, x), height };
    });
  });
  return { points, most: points.reduce((a, b) => (b.height > a.height + 1e-9 ? b : a)) };
}

/** `4 o'clock` for a direction, rad counter-clockwise from x: 12 is up, seen from the tubes. */
export function clockPosition(angle: number): string {
  const hour = Math.round(3 - (angle * 6) / Math.PI);
  return `${((((hour - 1) % 12) + 12) % 12) + 1} o'clock`;
}
