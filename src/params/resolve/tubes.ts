import type { SecondaryPlan, StockBend, StockPlan, TubePlan } from '../plan.js';
import type { PlanFile } from '../schema/plan-file.js';
import type { TubeSize } from '../tube-growth.js';

/** The primaries' tube as later stages see it. */
export function tubeOf(tube: PlanFile['tube']): TubePlan {
  return {
    od: tube.od,
    wall: tube.wall,
    material: tube.material,
    bends: stockOf(tube.bends),
    sticks: tube.sticks,
    steps: tube.steps.map((s) => ({
      at: s.at,
      within: s.within,
      od: s.od,
      wall: s.wall,
      bends: stockOf(s.bends),
      sticks: s.sticks,
    })),
    minStraight: tube.min_straight,
    minStraightPort: tube.min_straight_port,
    minStraightInlet: tube.min_straight_inlet,
  };
}

/** The secondaries as later stages see them. */
export function secondariesOf(s: NonNullable<PlanFile['secondaries']>): SecondaryPlan {
  return {
    length: s.length,
    tolerance: s.spread,
    od: s.od,
    wall: s.wall,
    bends: stockOf(s.bends),
    sticks: s.sticks,
  };
}

const stockOf = (bends: PlanFile['tube']['bends']): StockBend[] =>
  bends.map(({ clr, max_angle, leg, short_leg, elbow, name, price, available }) => ({
    clr,
    maxAngle: max_angle,
    leg,
    shortLeg: short_leg,
    ...(elbow === undefined ? {} : { elbow: elbow.name }),
    ...(name === undefined ? {} : { name }),
    ...(price === undefined ? {} : { price }),
    ...(available === undefined ? {} : { available }),
  }));

/** How stock is cut and bought, as later stages see it. */
export const stockPlanOf = (s: PlanFile['stock']): StockPlan => ({
  kerf: s.kerf,
  grip: s.grip,
  leastOffcut: s.least_offcut,
  minimise: s.minimise,
  currency: s.currency ?? null,
  density: s.density ?? null,
});

/** The tube the primaries end in: the last step, or the one tube. */
export const lastSize = (tube: PlanFile['tube']): TubeSize => tube.steps.at(-1) ?? tube;
