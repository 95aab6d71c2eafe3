import type { BenchPlan } from '../plan.js';
import type { PlanSections } from './sections.js';

/** The jigs for the bench; null when the plan asks for none. */
export function benchOf(file: PlanSections['jig']['bench']): BenchPlan | null {
  if (file === undefined) return null;
  const { saddles, sleeves, clocking_rings, base, torch_room } = file;
  return { saddles, sleeves, clockingRings: clocking_rings, base, torchRoom: torch_room };
}
