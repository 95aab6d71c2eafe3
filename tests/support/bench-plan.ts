import type { BenchPlan, Plan } from '../../src/params/plan.js';

/** All jigs for the bench, as a plan with an empty section gets them. */
export const BENCH: BenchPlan = {
  saddles: true,
  sleeves: true,
  clockingRings: true,
  base: { pitch: 25, hole: 5.3, thickness: 8 },
  torchRoom: 25,
};

/** The plan with jigs for the bench. */
export const withBench = (plan: Plan, bench: Partial<BenchPlan> = {}): Plan => ({
  ...plan,
  jig: { ...plan.jig, bench: { ...BENCH, ...bench } },
});
