import type { Outline } from '../../src/geometry/outline/outline.js';
import { mirrorOutline, reverseOutline, rotateOutline } from '../../src/geometry/outline/transform.js';

/** The same outline begun at its vertex number `first`. */
export function startAt(outline: Outline, first: number): Outline {
  const v = outline.vertices;
  return { vertices: v.map((_, i) => v[(i + first) % v.length]!) };
}

/** The same counter-clockwise shape begun elsewhere, turned by quarters and seen in a mirror: sizes must not change. */
export const poses = (outline: Outline): readonly Outline[] => [
  startAt(outline, 1),
  rotateOutline(outline, 0, 1),
  rotateOutline(outline, -1, 0),
  mirrorOutline(outline),
  reverseOutline(reverseOutline(outline)),
];
