import { signedArea } from './measure.js';
import { offsetOutlines } from './offset.js';
import type { Outline } from './outline.js';

/**
 * The outline with every outer corner rounded to a radius, mm. It is the opening of the region with a disc: in by the radius, then
 * out by it (Serra, Image Analysis and Mathematical Morphology, 1982, from memory); inner corners and outer arcs of a larger
 * radius stay as they are. A radius of 0 returns the outline. Throws Error when it falls into pieces.
 */
export function roundOuterCorners(outline: Outline, radius: number): Outline {
  if (radius === 0) return outline;
  if (!(radius > 0)) throw new RangeError(`the radius of outer corners must not be negative, got ${radius}`);
  const shrunk = offsetOutlines([outline], -radius).filter((o) => signedArea(o) > 0);
  if (shrunk.length !== 1) {
    throw new Error(`rounding by ${radius} mm left ${shrunk.length} outlines where one was given`);
  }
  const opened = offsetOutlines(shrunk, radius).filter((o) => signedArea(o) > 0);
  if (opened.length !== 1)
    throw new Error(`rounding by ${radius} mm left ${opened.length} outlines where one was given`);
  return opened[0]!;
}
