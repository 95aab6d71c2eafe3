import { add2, rotate2, type Vec2 } from '../vec2.js';
import { biarc } from './biarc.js';
import { circleOutline } from './make.js';
import type { Outline } from './outline.js';
import { outlineOfSides } from './sides.js';

/** Axes that differ by less than this part are those of a circle. */
const ROUND = 1e-9;

/** Pieces an ellipse is cut into, each of two arcs: the arcs leave an ellipse of 80 x 40 mm by less than 0.002 mm. */
const PIECES = 48;

/**
 * A counter-clockwise ellipse as tangent arcs: half axes in mm, the first along `direction` (rad from x). Each piece is a biarc
 * between two points of the ellipse with its tangents there. A circle comes out as one.
 */
export function ellipseOutline(centre: Vec2, [a, b]: Vec2, direction: number): Outline {
  if (!(a > 0 && b > 0)) throw new RangeError(`an ellipse needs two half axes above 0 mm, got ${a} and ${b}`);
  if (Math.abs(a - b) <= ROUND * a) return circleOutline(centre, 2 * b);
  const [cos, sin] = [Math.cos(direction), Math.sin(direction)];
  const headings = Array.from({ length: PIECES }, (_, i) => {
    const t = (2 * Math.PI * i) / PIECES;
    const along: Vec2 = [-a * Math.sin(t), b * Math.cos(t)];
    const l = Math.hypot(...along);
    return {
      point: add2(centre, rotate2([a * Math.cos(t), b * Math.sin(t)], cos, sin)),
      direction: rotate2([along[0] / l, along[1] / l], cos, sin),
    };
  });
  return outlineOfSides(headings.flatMap((h, i) => biarc(h, headings[(i + 1) % PIECES]!)));
}
