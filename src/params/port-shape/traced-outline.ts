import { LEAST_SIDE } from '../../geometry/contour/fit.js';
import { outlineContains } from '../../geometry/outline/contains.js';
import { outlineBounds } from '../../geometry/outline/measure.js';
import type { Outline } from '../../geometry/outline/outline.js';
import { validateOutline } from '../../geometry/outline/valid.js';
import { lengthWords, tidy } from '../faults/wording.js';
import type { LengthUnit } from '../units.js';
import { LARGEST_PORT } from './port-shape.js';

/** What is wrong with a traced outline about the port's centre, and the number of the corner it is about, if it is one. */
export interface TracedFault {
  readonly place: readonly number[];
  readonly message: string;
}

/** `44 x 36 mm`. */
export function tracedSize(outline: Outline): string {
  const { from, to } = outlineBounds(outline);
  return `${tidy(to[0] - from[0])} x ${tidy(to[1] - from[1])} mm`;
}

/** Null for an outline that is closed, has area, does not cross itself, holds the centre and is no larger than a port. */
export function tracedFault(outline: Outline, unit: LengthUnit): TracedFault | null {
  const v = outline.vertices;
  const last = v.length - 1;
  if (last > 1 && v[0]!.x === v[last]!.x && v[0]!.y === v[last]!.y) {
    return { place: [last], message: 'the outline closes by itself: leave out the last point, it repeats the first' };
  }
  const twin = v.findIndex(
    (p, i) => Math.hypot(p.x - v[(i + 1) % v.length]!.x, p.y - v[(i + 1) % v.length]!.y) < LEAST_SIDE,
  );
  if (twin >= 0) {
    return { place: [(twin + 1) % v.length], message: `this point lies within ${LEAST_SIDE} mm of the one before` };
  }
  try {
    validateOutline(outline, { leastSide: LEAST_SIDE, turning: 'either' });
  } catch (error) {
    return {
      place: [],
      message: `expected an outline with area that does not cross itself: ${(error as Error).message}`,
    };
  }
  if (!outlineContains(outline, [0, 0])) {
    return {
      place: [],
      message: "the outline must hold the port's centre: give its corners about `at`, which is [0, 0]",
    };
  }
  const { from, to } = outlineBounds(outline);
  if (Math.max(to[0] - from[0], to[1] - from[1]) > LARGEST_PORT.max) {
    return { place: [], message: `expected a port of at most ${lengthWords(LARGEST_PORT.max, unit)}` };
  }
  return null;
}
