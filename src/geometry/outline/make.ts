import { distance2, type Vec2 } from '../vec2.js';
import type { Outline } from './outline.js';
import { type ArcSide, arcAbout, bulgeOf, sidesOf } from './sides.js';

/** Bulge of a counter-clockwise quarter circle: tan(90 deg / 4). */
export const QUARTER_BULGE = Math.SQRT2 - 1;

/** Counter-clockwise circle, mm, as two half circles. */
export const circleOutline = (centre: Vec2, diameter: number): Outline => ({
  vertices: [
    { x: centre[0] + diameter / 2, y: centre[1], bulge: 1 },
    { x: centre[0] - diameter / 2, y: centre[1], bulge: 1 },
  ],
});

/**
 * Counter-clockwise slot with round ends, mm: two half circles of the width and two straights, as long over all as `length`, along
 * `direction` (rad from x). A slot no longer than wide is a circle.
 */
export function slotOutline(centre: Vec2, length: number, width: number, direction: number): Outline {
  if (!(length > width)) return circleOutline(centre, width);
  const [cos, sin] = [Math.cos(direction), Math.sin(direction)];
  const [half, r] = [(length - width) / 2, width / 2];
  const corner = (x: number, y: number, bulge: number) => ({
    x: centre[0] + x * cos - y * sin,
    y: centre[1] + x * sin + y * cos,
    bulge,
  });
  return { vertices: [corner(-half, -r, 0), corner(half, -r, 1), corner(half, r, 0), corner(-half, r, 1)] };
}

/** Straight-sided outline through corners in order, mm. */
export const polygonOutline = (corners: readonly Vec2[]): Outline => ({
  vertices: corners.map(([x, y]) => ({ x, y, bulge: 0 })),
});

/**
 * Counter-clockwise rectangle about the origin with rounded corners, mm; a radius of half a side gives an oval.
 * Throws RangeError when the corners do not fit.
 */
export function rectangleOutline(width: number, height: number, cornerRadius = 0): Outline {
  const [w, h, r] = [width / 2, height / 2, cornerRadius];
  if (!(w > 0 && h > 0 && r >= 0 && r <= Math.min(w, h))) {
    throw new RangeError(`corners of radius ${r} mm do not fit a rectangle of ${width} x ${height} mm`);
  }
  if (r === 0)
    return polygonOutline([
      [-w, -h],
      [w, -h],
      [w, h],
      [-w, h],
    ]);
  const b = QUARTER_BULGE;
  const vertices = [
    { x: w - r, y: -h, bulge: b },
    { x: w, y: -h + r, bulge: 0 },
    { x: w, y: h - r, bulge: b },
    { x: w - r, y: h, bulge: 0 },
    { x: -w + r, y: h, bulge: b },
    { x: -w, y: h - r, bulge: 0 },
    { x: -w, y: -h + r, bulge: b },
    { x: -w + r, y: -h, bulge: 0 },
  ];
  return { vertices: vertices.filter((v, i) => distinct(v, vertices[(i + 1) % vertices.length]!)) };
}

const distinct = (
  a: { readonly x: number; readonly y: number },
  b: { readonly x: number; readonly y: number },
): boolean => distance2([a.x, a.y], [b.x, b.y]) > 0;

/** A circle's centre and diameter, mm. */
export interface Circle {
  readonly centre: Vec2;
  readonly diameter: number;
}

/** The circle an outline is, or null when it is something else: every side an arc of one circle within `tolerance` mm, one turn in all. */
export function circleOf(outline: Outline, tolerance = 1e-7): Circle | null {
  const sides = sidesOf(outline);
  const first = sides[0];
  if (first?.kind !== 'arc') return null;
  const same = (s: ArcSide): boolean =>
    distance2(s.centre, first.centre) < tolerance && Math.abs(s.radius - first.radius) < tolerance;
  if (!sides.every((s) => s.kind === 'arc' && same(s))) return null;
  const turned = sides.reduce((sum, s) => sum + (s.kind === 'arc' ? s.sweep : 0), 0);
  if (Math.abs(Math.abs(turned) - 2 * Math.PI) > 1e-6) return null;
  return { centre: first.centre, diameter: 2 * first.radius };
}

/** The outline with every arc cut into equal pieces of at most `most` rad. */
export function splitArcs(outline: Outline, most: number): Outline {
  return {
    vertices: sidesOf(outline).flatMap((s, i) => {
      const v = outline.vertices[i]!;
      const pieces = s.kind === 'arc' ? Math.ceil(Math.abs(s.sweep) / most - 1e-9) : 1;
      if (s.kind === 'line' || pieces <= 1) return [v];
      return Array.from({ length: pieces }, (_, k) => {
        const piece = arcAbout(s.centre, s.radius, s.start + (s.sweep * k) / pieces, s.sweep / pieces);
        const [x, y] = k === 0 ? [v.x, v.y] : piece.from;
        return { x, y, bulge: bulgeOf(piece) };
      });
    }),
  };
}
