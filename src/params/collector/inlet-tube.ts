import type { CollectorPlan, Plan } from '../plan.js';

/** Number of tubes that join at a collector. */
export const inletCount = (c: CollectorPlan): number => c.cylinders.length + c.from.length;

/** The tube that arrives at a collector's inlets, mm: the last step of the primaries, or a secondary. */
export function inletTube(plan: Plan, c: CollectorPlan): { readonly od: number; readonly wall: number } {
  if (c.from.length > 0 && plan.secondaries) return plan.secondaries;
  return plan.tube.steps[plan.tube.steps.length - 1] ?? plan.tube;
}
