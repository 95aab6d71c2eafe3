import type { StockBend, StockStick } from './stock.js';

/** The tube of the primaries, what stock there is of it, and the straights a route must leave. */
export interface TubePlan {
  /** Outside diameter, mm. */
  readonly od: number;
  /** mm. */
  readonly wall: number;
  /** As the plan names it. */
  readonly material: string;
  /** Bent stock of the first size. */
  readonly bends: readonly StockBend[];
  /** Straight stock of the first size. */
  readonly sticks: readonly StockStick[];
  /** Where primaries grow, nearest the head first; empty for one bore throughout. */
  readonly steps: readonly TubeStep[];
  /** Least straight between two bends, mm. */
  readonly minStraight: number;
  /** Least straight from the outer face of the flange, mm. */
  readonly minStraightPort: number;
  /** Least straight before the collector inlet, mm. */
  readonly minStraightInlet: number;
}

/** A larger tube from a running length on. The joint falls on a straight. */
export interface TubeStep {
  /** Running length from the head face, mm. */
  readonly at: number;
  /** How far to either side of `at` the joint may fall, mm. */
  readonly within: number;
  /** Outside diameter, mm. */
  readonly od: number;
  /** Wall, mm. */
  readonly wall: number;
  /** Bent stock of this size. */
  readonly bends: readonly StockBend[];
  /** Straight stock of this size. */
  readonly sticks: readonly StockStick[];
}

/** The tubes between collectors of a 4-2-1. */
export interface SecondaryPlan {
  /** Target length of every secondary, from outlet to inlet plane, mm. */
  readonly length: number;
  /** Largest allowed spread, mm. */
  readonly tolerance: number;
  /** Outside diameter, mm. */
  readonly od: number;
  /** Wall, mm. */
  readonly wall: number;
  /** Bent stock of this size. */
  readonly bends: readonly StockBend[];
  /** Straight stock of this size. */
  readonly sticks: readonly StockStick[];
}
