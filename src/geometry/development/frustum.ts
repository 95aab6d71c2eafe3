import { polygonOutline } from '../outline/make.js';
import type { Outline } from '../outline/outline.js';
import { arcAbout, outlineOfSides, reverseSide } from '../outline/sides.js';

/** A developed right cone between two parallel circles: a sector between two radii about the origin. */
export interface ConeSector {
  /** Distance along the skin between the circles, mm. */
  readonly slant: number;
  /** Radii of the sector, mm; infinite for equal circles, which unroll into a rectangle. */
  readonly inner: number;
  readonly outer: number;
  /** rad; 0 for a rectangle. */
  readonly angle: number;
}

/**
 * The sector of a frustum, all mm: slant L = hypot(height, (D - d) / 2), radii L d / (D - d) and L D / (D - d), angle
 * pi (D - d) / L. Source: the development of a right cone as in any text on sheet metal pattern drafting. Throws RangeError unless the
 * diameters are not negative, one is above zero and the height is.
 */
export function coneSector(from: number, to: number, height: number): ConeSector {
  const [d, D] = [Math.min(from, to), Math.max(from, to)];
  if (!(d >= 0 && D > 0 && height > 0)) {
    throw new RangeError(`no frustum has diameters ${from} and ${to} mm and height ${height} mm`);
  }
  const slant = Math.hypot(height, (D - d) / 2);
  if (D - d < 1e-9 * D) return { slant, inner: Number.POSITIVE_INFINITY, outer: Number.POSITIVE_INFINITY, angle: 0 };
  return { slant, inner: (slant * d) / (D - d), outer: (slant * D) / (D - d), angle: (Math.PI * (D - d)) / slant };
}

/** The outline of a frustum's development: exact arcs about the origin, symmetrical to the y axis; a rectangle for equal diameters. */
export function frustumOutline(from: number, to: number, height: number): Outline {
  const { slant, inner, outer, angle } = coneSector(from, to, height);
  if (angle === 0) {
    const half = (Math.PI * from) / 2;
    return polygonOutline([
      [-half, 0],
      [half, 0],
      [half, slant],
      [-half, slant],
    ]);
  }
  const start = (Math.PI - angle) / 2;
  const out = arcAbout([0, 0], outer, start, angle);
  if (inner === 0)
    return outlineOfSides([
      out,
      { kind: 'line', from: out.to, to: [0, 0] },
      { kind: 'line', from: [0, 0], to: out.from },
    ]);
  const back = reverseSide(arcAbout([0, 0], inner, start, angle));
  return outlineOfSides([
    out,
    { kind: 'line', from: out.to, to: back.from },
    back,
    { kind: 'line', from: back.to, to: out.from },
  ]);
}
