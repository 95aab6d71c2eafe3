import type { Frame } from '../../geometry/frame.js';
import { branchFrame } from '../../geometry/merge/branch-axis.js';
import type { BranchPlan } from '../../params/plan.js';

/** A branch and what its saddle is cut to, in the collector's frame; mm and rad. */
export interface BranchCut {
  /** Origin on the collector's axis, z the branch's way out. */
  readonly frame: Frame;
  /** Outside diameter. */
  readonly od: number;
  /** Wall. */
  readonly wall: number;
  /** Between the branch and the collector's gas: the saddle's angle. */
  readonly angle: number;
  /** About the collector's axis from inlet 1. */
  readonly clocking: number;
  /** Where its axis meets the collector's, from the inlet plane. */
  readonly at: number;
  /** From the collector's axis to the open end. */
  readonly length: number;
  /** What it leaves: a round pipe about the collector's axis, or the cone, whose hull of lobes is no simple surface but for one inlet. */
  readonly host: BranchHost;
  /** Middle of the open end. */
  readonly end: Frame;
}

/** What a branch is set on: the straight tail or the cone, with places along the collector's axis, mm. */
export type BranchHost =
  /** Outside radius, and where along the collector's axis it runs. */
  | {
      readonly kind: 'tail';
      /** Outside radius. */
      readonly radius: number;
      /** Where it begins. */
      readonly from: number;
      /** Where it ends. */
      readonly to: number;
    }
  | {
      readonly kind: 'cone';
      /** Where it begins. */
      readonly from: number;
      /** Where it ends. */
      readonly to: number;
    };

/** The branch of a plan on its host. */
export function branchCut(plan: BranchPlan, host: BranchHost): BranchCut {
  const { od, wall, angle, clocking, at, length } = plan;
  const frame = branchFrame(at, angle, clocking);
  const [x, y, z] = frame.z;
  const end: Frame = { ...frame, origin: [x * length, y * length, at + z * length] };
  return { frame, od, wall, angle, clocking, at, length, host, end };
}
