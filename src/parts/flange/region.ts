import { slotOutline } from '../../geometry/outline/make.js';
import type { Outline } from '../../geometry/outline/outline.js';
import type { Vec2 } from '../../geometry/vec2.js';

/** A hole for the gas. */
export interface FlangeOpening {
  /** Cylinder number, from 1. */
  readonly cylinder: number;
  /** Outline, mm. */
  readonly outline: Outline;
}

/** A bolt hole. */
export interface FlangeHole {
  /** Place in the head's list of bolts. */
  readonly bolt: number;
  /** Centre, mm. */
  readonly at: Vec2;
  /** Width of the hole, mm. */
  readonly diameter: number;
  /** Length over all and direction, rad from x, of a slot; null for a round hole. */
  readonly slot: {
    /** Between the centres of its ends, mm. */
    readonly length: number;
    /** Counter-clockwise from x, rad. */
    readonly angle: number;
  } | null;
  /** As the plan gives it. */
  readonly thread: string;
  /** Too small to cut in this plate: marked for the drill. */
  readonly drill: boolean;
}

/** A hole for a dowel: drilled and reamed, never cut. */
export interface FlangeDowel {
  /** Centre, mm. */
  readonly at: Vec2;
  /** mm, reamed. */
  readonly diameter: number;
}

/** Outlines of a flange in the frame of its head face, mm; all counter-clockwise. */
export interface FlangeRegion {
  /** The outside. */
  readonly outer: Outline;
  /** Holes for the gas. */
  readonly openings: readonly FlangeOpening[];
  /** Bolt holes. */
  readonly bolts: readonly FlangeHole[];
  /** Warp-relief slots and windows between bridges: cut like openings. */
  readonly slots: readonly Outline[];
  /** Dowel holes. */
  readonly dowels: readonly FlangeDowel[];
}

/** The outline of a bolt hole: a circle, or a slot with round ends. */
export const holeOutline = ({ at, diameter, slot }: FlangeHole): Outline =>
  slotOutline(at, slot?.length ?? diameter, diameter, slot?.angle ?? 0);

/** The largest half-extent of a bolt hole from its middle, mm. */
export const holeReach = ({ diameter, slot }: FlangeHole): number => (slot?.length ?? diameter) / 2;
