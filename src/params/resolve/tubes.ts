import type { SecondaryPlan, StockBend, TubePlan } from '../plan.js';
import type { PlanFile } from '../schema/plan-file.js';
import type { TubeSize } from '../tube-growth.js';

/** The primaries' tube as later stages see it. */
export function tubeOf(tube: PlanFile['tube']): TubePlan {
  return {
    od: tube.od,
    wall: tube.wall,
    material: tube.material,
    bends: stockOf(tube.bends),
    steps: tube.steps.map((s) => ({ at: s.at, within: s.within, od: s.od, wall: s.wall, bends: stockOf(s.bends) })),
    minStraight: tube.min_straight,
    minStraightPort: tube.min_straight_port,
    minStraightInlet: tube.min_straight_inlet,
  };
}

/** The secondaries as later stages see them. */
export function secondariesOf(s: NonNullable<PlanFile['secondaries']>): SecondaryPlan {
  return { length: s.length, tolerance: s.spread, od: s.od, wall: s.wall, bends: stockOf(s.bends) };
}

const stockOf = (bends: PlanFile['tube']['bends']): StockBend[] =>
  bends.map((b) => ({ clr: b.clr, maxAngle: b.max_angle, leg: b.leg, shortLeg: b.short_leg ?? b.leg }));

/** The tube the primaries end in: the last step, or the one tube. */
export const lastSize = (tube: PlanFile['tube']): TubeSize => tube.steps.at(-1) ?? tube;
