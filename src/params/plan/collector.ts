import type { Frame } from '../../geometry/frame.js';
import type { Vec3 } from '../../geometry/vec3.js';

/** A place where tubes join, and what becomes of their gas behind it. */
export interface CollectorPlan {
  /** As the plan calls it. */
  readonly name: string;
  /** Cylinders whose primaries join here, in cylinder order; empty when secondaries join here. */
  readonly cylinders: readonly number[];
  /** Names of the collectors whose secondaries join here; empty when primaries join here. */
  readonly from: readonly string[];
  /** World frame at the centre of the inlet plane; z is the way of the gas, x points to inlet 1. */
  readonly frame: Frame;
  /** Gap between neighbouring tubes at the inlet plane, mm. */
  readonly inletGap: number;
  /** Angle between an inlet's axis and the collector's axis, rad. */
  readonly mergeHalfAngle: number;
  /** Which tube goes to which inlet. */
  readonly order: InletOrder;
  /** What follows the merge. */
  readonly outlet: CollectorOutlet;
  /** Whether a filler closes the hole the tubes leave between them at the inlet plane. */
  readonly centre: 'open' | 'spike';
  /** Sleeves that slip over the tubes' ends; null when the tubes are welded on. */
  readonly slip: SlipPlan | null;
  /** A pipe that leaves the collector, to a wastegate say; null for none. */
  readonly branch: BranchPlan | null;
  /** How far the collector may move from `frame`; null when it is fixed. */
  readonly freedom: CollectorFreedom | null;
}

/** The solver may place the collector within these bounds to win clearance. */
export interface CollectorFreedom {
  /** Lowest and highest offset of the inlet plane's centre, mm, along the world's axes. */
  readonly from: Vec3;
  /** Highest offset, mm. */
  readonly to: Vec3;
  /** Half-angle of the cone about the planned direction, rad. */
  readonly tilt: number;
  /** True when it may turn about its axis. */
  readonly turns: boolean;
}

/** Which tube goes to which inlet; inlets are counted from 1 about the collector's axis. */
export type InletOrder =
  | { readonly kind: 'free' }
  | { readonly kind: 'firing' }
  /** Cylinder at inlet 1, 2, ...; for a collector fed by others: numbers from 1 in the order of `from`. */
  | {
      readonly kind: 'given';
      /** Cylinder, or number of the feeding collector, of each inlet. */
      readonly cylinders: readonly number[];
    };

/** The cone and pipe behind a merge, as the plan gives them. */
export interface CollectorOutlet {
  /** Outside diameter of the tail, mm. */
  readonly od: number;
  /** Wall of the tail, mm. */
  readonly wall: number;
  /** Length of the cone from the merge to the outlet, or to the throat where there is one, mm. */
  readonly coneLength: number;
  /** Straight pipe after the cone or the diffuser, mm. */
  readonly tail: number;
  /** What follows the cone of a venturi; null for a plain cone. */
  readonly throat: ThroatPlan | null;
}

/** The narrowest place of a venturi and the diffuser from there to the outlet, mm. */
export interface ThroatPlan {
  /** Bore of the throat. */
  readonly bore: number;
  /** Straight length of the throat. */
  readonly length: number;
  /** 0 where the throat is as wide as the outlet. */
  readonly diffuserLength: number;
}

/** Sleeves over the ends of the tubes at a collector's inlets, mm. */
export interface SlipPlan {
  /** How far a sleeve reaches back over its tube. */
  readonly overlap: number;
  /** Gap per side. */
  readonly fit: number;
}

/** A round pipe that leaves a collector through its side, mm and rad. */
export interface BranchPlan {
  /** Outside diameter. */
  readonly od: number;
  /** Wall. */
  readonly wall: number;
  /** Between its way out and the collector's gas. */
  readonly angle: number;
  /** Where its axis meets the collector's, from the inlet plane. */
  readonly at: number;
  /** About the collector's axis from inlet 1, right-handed about the gas. */
  readonly clocking: number;
  /** From the collector's axis to its open end, along its own axis. */
  readonly length: number;
  /** Part of the collector it leaves. */
  readonly on: 'cone' | 'tail';
}
