import type { Outline } from '../../geometry/outline/outline.js';
import type { Vec2 } from '../../geometry/vec2.js';
import type { FlangeStyle } from '../../params/plan/flange.js';
import type { LengthUnit } from '../../params/units.js';
import type { BoltGrowth } from './growth.js';
import type { NotchDone } from './notch.js';
import type { OpeningFlow } from './opening.js';
import type { FlangeRegion } from './region.js';
import type { Relief } from './relief.js';

/** A contour that is drawn for the fabricator and not cut: what the opening is blended to at a face. */
export interface FlangeContour {
  /** Cylinder number, from 1. */
  readonly cylinder: number;
  /** Face of the plate it is scribed on. */
  readonly face: 'head' | 'outer';
  /** Outline, mm. */
  readonly outline: Outline;
}

/** One flange: a plate bolted to one head, for all of its ports or for some. */
export interface FlangePart {
  /** 'flange' for one head, else 'flange-' and the head's name, then the cylinders of a separate one; safe as a file name. */
  readonly name: string;
  /** Plan and head in the plan's words. */
  readonly title: string;
  /** As the plan calls the head. */
  readonly headName: string;
  /** Index into `Plan.heads`. */
  readonly head: number;
  /** Cylinders whose ports it serves. */
  readonly cylinders: readonly number[];
  /** How it is relieved between ports. */
  readonly style: FlangeStyle['kind'];
  /** mm. */
  readonly thickness: number;
  /** As the plan names it. */
  readonly material: string;
  /** The finished flange. */
  readonly region: FlangeRegion;
  /** What the cutter is to follow: the finished outlines, or those moved by half the kerf, each begun where the pierce does least harm. */
  readonly cut: FlangeRegion;
  /** What the cutter must know. */
  readonly kerf: {
    /** Width of the cut, mm. */
    readonly width: number;
    /** True when the outlines are moved by half of it already. */
    readonly compensated: boolean;
  };
  /** What the gas meets in each opening, in the order of the openings. */
  readonly flows: readonly OpeningFlow[];
  /** Drawn beside the cuts: the contours a transition is blended to at both faces. */
  readonly contours: readonly FlangeContour[];
  /** How far each bolt hole moves when hot, in the order of the bolts; empty when the plan asks nothing. */
  readonly growth: readonly BoltGrowth[];
  /** What became of each neck or slot; empty for other styles. */
  readonly relief: readonly Relief[];
  /** What was cut out of its edge. */
  readonly notches: readonly NotchDone[];
  /** Extent of the finished flange, mm. */
  readonly size: Vec2;
  /** Face area of the finished flange without its openings, slots and holes, mm2. */
  readonly area: number;
  /** Outer edge of the finished flange, mm. */
  readonly perimeter: number;
  /** All that is cut, mm: outer edge, openings, slots and holes that are not drilled. */
  readonly cutLength: number;
  /** kg, from the density of the material's kind. */
  readonly mass: number;
  /** Unit its words say lengths in: the plan's. */
  readonly units: LengthUnit;
  /** Remarks for the fabricator. */
  readonly notes: readonly string[];
}
