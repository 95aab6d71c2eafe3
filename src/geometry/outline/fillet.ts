import { signedArea } from './measure.js';
import { offsetOutlines } from './offset.js';
import type { Outline } from './outline.js';

/**
 * The outline with every inner corner rounded to a radius, mm, tangent to the sides it meets, and every gap narrower than
 * twice that radius filled. It is the closing of the region with a disc: out by the radius, then in by it (Serra, Image
 * Analysis and Mathematical Morphology, 1982, from memory). Outer corners and sides away from inner corners stay as they are.
 * Pockets shut in on the way are filled. A radius of 0 returns the outline. Throws RangeError for a negative radius, and Error when
 * the closing leaves more than one outline or none.
 */
export function filletInnerCorners(outline: Outline, radius: number): Outline {
  if (radius === 0) return outline;
  if (!(radius > 0)) throw new RangeError(`fillet radius must not be negative, got ${radius}`);
  const grown = offsetOutlines([outline], radius).filter((o) => signedArea(o) > 0);
  const closed = offsetOutlines(grown, -radius).filter((o) => signedArea(o) > 0);
  if (closed.length !== 1)
    throw new Error(`a fillet of ${radius} mm left ${closed.length} outlines where one was given`);
  return closed[0]!;
}

/**
 * A region with every inner corner rounded to a radius, mm, as above, its windows kept: outer outlines counter-clockwise, windows
 * clockwise, given and returned. Windows too small for the radius are filled. Throws RangeError for a negative radius.
 */
export function filletRegion(outlines: readonly Outline[], radius: number): readonly Outline[] {
  if (radius === 0) return outlines;
  if (!(radius > 0)) throw new RangeError(`fillet radius must not be negative, got ${radius}`);
  return offsetOutlines(offsetOutlines(outlines, radius), -radius);
}
