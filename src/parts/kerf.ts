import { offsetOutline } from '../geometry/outline-offset.js';
import { validateOutline } from '../geometry/outline-valid.js';
import { LEAST_SIDE } from './flange-edge.js';
import type { FlangeRegion } from './flange-region.js';

/**
 * The path of the cutter's middle for a finished flange: the outer outline out by `half` mm, openings and cut holes in by it.
 * Drilled holes stay. Zero leaves the outlines to the cutter. Throws RangeError when an opening closes or a side becomes too short.
 */
export function cutPath(region: FlangeRegion, half: number): FlangeRegion {
  if (half === 0) return region;
  const cut: FlangeRegion = {
    outer: offsetOutline(region.outer, half),
    openings: region.openings.map((o) => ({ ...o, outline: offsetOutline(o.outline, -half) })),
    bolts: region.bolts.map((b) => (b.drill ? b : { ...b, diameter: b.diameter - 2 * half })),
  };
  validateOutline(cut.outer, { leastSide: LEAST_SIDE });
  const shut = cut.bolts.find((b) => !(b.diameter > 0));
  if (shut !== undefined)
    throw new RangeError(`a kerf of ${2 * half} mm leaves nothing of a bolt hole for ${shut.thread}`);
  return cut;
}
