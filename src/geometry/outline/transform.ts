import { rotate2, type Vec2 } from '../vec2.js';
import type { Outline } from './outline.js';

/** The outline moved by x and y, mm. */
export const translateOutline = (outline: Outline, by: Vec2): Outline => ({
  vertices: outline.vertices.map((v) => ({ ...v, x: v.x + by[0], y: v.y + by[1] })),
});

/** The outline turned about the origin, counter-clockwise, by an angle given as its cosine and sine: exact at quarter turns. */
export const rotateOutline = (outline: Outline, cos: number, sin: number): Outline => ({
  vertices: outline.vertices.map((v) => {
    const [x, y] = rotate2([v.x, v.y], cos, sin);
    return { x, y, bulge: v.bulge };
  }),
});

/** The outline run the other way round: the same shape, the opposite sign of area. */
export function reverseOutline(outline: Outline): Outline {
  const v = outline.vertices;
  return {
    vertices: v.map((_, i) => {
      const at = v[v.length - 1 - i]!;
      const side = v[(2 * v.length - 2 - i) % v.length]!;
      return { x: at.x, y: at.y, bulge: side.bulge === 0 ? 0 : -side.bulge };
    }),
  };
}

/** The outline seen in a mirror along the y axis (x changes sign), kept in its own sense of turning. */
export const mirrorOutline = (outline: Outline): Outline =>
  reverseOutline({
    vertices: outline.vertices.map((v) => ({ x: v.x === 0 ? 0 : -v.x, y: v.y, bulge: v.bulge === 0 ? 0 : -v.bulge })),
  });
