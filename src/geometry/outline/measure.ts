import { cross2, sub2, type Vec2 } from '../vec2.js';
import type { Outline } from './outline.js';
import { type ArcSide, arcFraction, type Side, sideLength, sidesOf } from './sides.js';

/** Lowest and highest x and y, mm. */
export interface Bounds {
  readonly from: Vec2;
  readonly to: Vec2;
}

/** Area between an arc and its chord, mm2, positive for a counter-clockwise arc: r^2 (a - sin a) / 2. */
const segmentArea = (arc: ArcSide): number => (arc.radius * arc.radius * (arc.sweep - Math.sin(arc.sweep))) / 2;

/** Signed area swept from a point along sides, mm2; the area they enclose when they close. Exact for arcs. */
export function areaOfSides(sides: readonly Side[], about: Vec2): number {
  return sides.reduce((sum, s) => {
    const triangle = cross2(sub2(s.from, about), sub2(s.to, about)) / 2;
    return sum + triangle + (s.kind === 'arc' ? segmentArea(s) : 0);
  }, 0);
}

/** Signed area, mm2: positive counter-clockwise. Shoelace sum plus circular segments, exact for arcs. */
export function signedArea(outline: Outline): number {
  const first = outline.vertices[0];
  return first === undefined ? 0 : areaOfSides(sidesOf(outline), [first.x, first.y]);
}

/** Enclosed area, mm2. */
export const outlineArea = (outline: Outline): number => Math.abs(signedArea(outline));

/** Length all round, mm. */
export const perimeter = (outline: Outline): number => sidesOf(outline).reduce((sum, s) => sum + sideLength(s), 0);

/** Smallest upright box round an outline, mm, with the arcs' own extremes. Throws RangeError for an outline without vertices. */
export function outlineBounds(outline: Outline): Bounds {
  const points = sidesOf(outline).flatMap((s): Vec2[] => (s.kind === 'line' ? [s.from] : [s.from, ...extremes(s)]));
  if (points.length === 0) throw new RangeError('an outline without vertices has no bounds');
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  return { from: [Math.min(...xs), Math.min(...ys)], to: [Math.max(...xs), Math.max(...ys)] };
}

/** Points of an arc furthest right, up, left and down, as far as it reaches them. */
function extremes(arc: ArcSide): Vec2[] {
  const ways: readonly Vec2[] = [
    [1, 0],
    [0, 1],
    [-1, 0],
    [0, -1],
  ];
  return ways
    .filter((_, quarter) => arcFraction(arc, (quarter * Math.PI) / 2) < 1)
    .map(([x, y]) => [arc.centre[0] + arc.radius * x, arc.centre[1] + arc.radius * y]);
}
