import { outlineArea } from '../../geometry/outline/measure.js';
import { offsetOutline } from '../../geometry/outline/offset.js';
import type { Outline } from '../../geometry/outline/outline.js';
import { validateOutline } from '../../geometry/outline/valid.js';
import type { Vec2 } from '../../geometry/vec2.js';
import type { LengthUnit } from '../../params/units.js';

/** Something cut from flat stock, as the drawings of it need it. */
export interface FlatPart {
  /** Where its files go, without their ending: 'flange', 'plates/turbine-inlet', 'gasket-flange'. */
  readonly path: string;
  readonly kind: 'flange' | 'plate' | 'gasket';
  /** What findings and lists call it: 'flange', 'turbine inlet', 'gasket of flange'. */
  readonly name: string;
  /** Plan and part in the plan's words. */
  readonly title: string;
  /** What stands under the title: 'head: front', 'for collector rear'. */
  readonly belongs: string;
  /** mm. */
  readonly thickness: number;
  readonly material: string;
  /** The finished part, and what the cutter is to follow. */
  readonly region: FlatRegion;
  readonly cut: FlatRegion;
  readonly kerf: { readonly width: number; readonly compensated: boolean };
  /** Extent of the finished part, mm. */
  readonly size: Vec2;
  /** kg; null where the stock is too light to tell. */
  readonly mass: number | null;
  /** Pieces in one set. */
  readonly count: number;
  /** Open lines marked on the part, mm. */
  readonly engraving: readonly (readonly Vec2[])[];
  /** Contours drawn and not cut: what openings are blended to at the face that is seen and at the one behind. */
  readonly blends: readonly { readonly face: 'seen' | 'behind'; readonly outline: Outline }[];
  /** Which side is seen: 'seen from the tubes'. */
  readonly seen: string;
  /** Unit its words say lengths in: the plan's. */
  readonly units: LengthUnit;
  /** Remarks for the fabricator. */
  readonly notes: readonly string[];
}

export interface FlatRegion {
  readonly outer: Outline;
  readonly openings: readonly FlatOpening[];
  /** Slots against warping and windows: cut, but nothing passes through them. */
  readonly slots: readonly Outline[];
  readonly holes: readonly FlatHole[];
}

export interface FlatOpening {
  /** 'cylinder 2', 'left opening'. */
  readonly place: string;
  /** What pictures write into it. */
  readonly label: string;
  readonly outline: Outline;
}

/** A hole or slot for a bolt or dowel. */
export interface FlatHole {
  /** 'bolt 3'. */
  readonly place: string;
  readonly at: Vec2;
  readonly outline: Outline;
  /** 'hole 9.00 mm for M8', 'slot 9.00 x 12.00 mm for M8'. */
  readonly words: string;
  /** Diameter of a round hole, mm; null for a slot. */
  readonly diameter: number | null;
  /** Too small to cut in this plate, or to be reamed: marked for the drill. */
  readonly drill: boolean;
}

/** Shortest side a cutter is asked to follow, mm (common practice, no source). */
const LEAST_SIDE = 0.05;

/**
 * The path of the cutter's middle: the outer outline out by `half` mm, openings and cut holes in by it; drilled holes stay. Throws
 * RangeError when an opening closes or a side becomes too short.
 */
export function flatCut(region: FlatRegion, half: number): FlatRegion {
  if (half === 0) return region;
  const shrunk = <T extends { readonly outline: Outline }>(o: T): T => ({
    ...o,
    outline: offsetOutline(o.outline, -half),
  });
  const outer = offsetOutline(region.outer, half);
  validateOutline(outer, { leastSide: LEAST_SIDE });
  return {
    outer,
    openings: region.openings.map(shrunk),
    slots: region.slots.map((s) => offsetOutline(s, -half)),
    holes: region.holes.map((h) => {
      if (h.drill) return h;
      const cut = shrunk(h);
      return h.diameter === null ? cut : { ...cut, diameter: h.diameter - 2 * half };
    }),
  };
}

/** Face area without openings and holes, mm2. */
export const flatArea = ({ outer, openings, slots, holes }: FlatRegion): number =>
  [...[...openings, ...holes].map((o) => o.outline), ...slots].reduce(
    (left, o) => left - outlineArea(o),
    outlineArea(outer),
  );
