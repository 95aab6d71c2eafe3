import type { Outline } from '../geometry/outline.js';
import type { Vec2 } from '../geometry/vec2.js';

export interface FlangeOpening {
  readonly cylinder: number;
  readonly outline: Outline;
}

export interface FlangeHole {
  readonly at: Vec2;
  /** mm. */
  readonly diameter: number;
  readonly thread: string;
  /** Too small to cut in this plate: marked for the drill. */
  readonly drill: boolean;
}

/** Outlines of a flange in the frame of its head face, mm; outer and openings counter-clockwise. */
export interface FlangeRegion {
  readonly outer: Outline;
  readonly openings: readonly FlangeOpening[];
  readonly bolts: readonly FlangeHole[];
}
