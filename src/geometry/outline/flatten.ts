import { CHORD_ERROR } from '../tolerance.js';
import type { Vec2 } from '../vec2.js';
import type { Outline } from './outline.js';
import { pointAlong, sidesOf } from './sides.js';

/**
 * Corners of a polygon inscribed in an outline, for solids: never for cutting. Every vertex of the outline is kept, and no
 * chord leaves its arc by more than `chordError` mm (sagitta = r (1 - cos(step / 2))). The first point is not repeated.
 * Throws RangeError for a chord error that is not positive.
 */
export function flattenOutline(outline: Outline, chordError: number = CHORD_ERROR): Vec2[] {
  if (!(chordError > 0)) throw new RangeError(`chord error must be above 0 mm, got ${chordError}`);
  return sidesOf(outline).flatMap((side): Vec2[] => {
    if (side.kind === 'line') return [side.from];
    const step = 2 * Math.acos(Math.max(1 - chordError / side.radius, 0));
    const pieces = Math.max(Math.ceil(Math.abs(side.sweep) / step - 1e-9), 1);
    return Array.from({ length: pieces }, (_, i) => pointAlong(side, i / pieces));
  });
}
