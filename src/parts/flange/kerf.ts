import { offsetOutline } from '../../geometry/outline/offset.js';
import type { Outline } from '../../geometry/outline/outline.js';
import { validateOutline } from '../../geometry/outline/valid.js';
import { LEAST_SIDE } from './edge.js';
import type { FlangeHole, FlangeRegion } from './region.js';
import { startedWell } from './start-point.js';

/**
 * The path of the cutter's middle for a finished flange: the outer outline out by `half` mm, openings, slots and cut holes in by it.
 * Drilled holes stay. Zero leaves the outlines to the cutter. Every contour begins at a good place to pierce. Throws RangeError when
 * an opening or slot closes or a side becomes too short.
 */
export function cutPath(region: FlangeRegion, half: number): FlangeRegion {
  const inward = (outline: Outline): Outline => (half === 0 ? outline : offsetOutline(outline, -half));
  const inner = [...region.openings.map((o) => o.outline), ...region.slots];
  const outer = half === 0 ? region.outer : offsetOutline(region.outer, half);
  const begun = (outline: Outline, own: Outline): Outline =>
    startedWell(
      outline,
      [region.outer, ...inner].filter((o) => o !== own),
    );
  const cut: FlangeRegion = {
    outer: startedWell(outer, inner),
    openings: region.openings.map((o) => ({ ...o, outline: begun(inward(o.outline), o.outline) })),
    bolts: region.bolts.map((b) => (b.drill || half === 0 ? b : narrowed(b, 2 * half))),
    slots: region.slots.map((s) => begun(inward(s), s)),
    dowels: region.dowels,
  };
  validateOutline(cut.outer, { leastSide: LEAST_SIDE });
  const shut = cut.bolts.find((b) => !(b.diameter > 0));
  if (shut !== undefined)
    throw new RangeError(`a kerf of ${2 * half} mm leaves nothing of a bolt hole for ${shut.thread}`);
  return cut;
}

const narrowed = (hole: FlangeHole, by: number): FlangeHole => ({
  ...hole,
  diameter: hole.diameter - by,
  slot: hole.slot && { ...hole.slot, length: hole.slot.length - by },
});
