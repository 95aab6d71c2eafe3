import { distance2, sub2, type Vec2 } from '../../geometry/vec2.js';
import type { GrowthPlan } from '../../params/plan/flange.js';
import { expansionBetween } from '../../params/tables/expansion.js';
import type { FlangeHole } from './region.js';

/** How one bolt hole moves against its bolt from cold to hot. */
export interface BoltGrowth {
  /** Place in the head's list of bolts. */
  readonly bolt: number;
  /** From the fixed bolt, cold, mm. */
  readonly distance: number;
  /** How much further the flange grows than the head over that distance, mm; below zero where the head outgrows it. */
  readonly slip: number;
}

/** Free expansion of the flange less that of the head, mm per mm, from cold to hot. */
export const slipPerLength = ({ flangeMetal, headMetal, cold, flangeHot, headHot }: GrowthPlan): number =>
  expansionBetween(flangeMetal, cold, flangeHot) - expansionBetween(headMetal, cold, headHot);

/** The bolt that stays where it is: the one the plan names where the flange has it, else the one nearest the middle of all. */
function fixedBolt(growth: GrowthPlan, holes: readonly FlangeHole[]): FlangeHole | null {
  const named = holes.find((h) => h.bolt + 1 === growth.fixed);
  if (named !== undefined || holes.length === 0) return named ?? null;
  const middle = middleOf(holes.map((h) => h.at));
  return holes.reduce((a, b) => (distance2(b.at, middle) < distance2(a.at, middle) - 1e-9 ? b : a));
}

function middleOf(points: readonly Vec2[]): Vec2 {
  const span = (i: 0 | 1): number => {
    const all = points.map((p) => p[i]);
    return (Math.min(...all) + Math.max(...all)) / 2;
  };
  return [span(0), span(1)];
}

/** Every bolt's slip against the fixed one. */
export function growthOf(growth: GrowthPlan, holes: readonly FlangeHole[]): readonly BoltGrowth[] {
  const fixed = fixedBolt(growth, holes);
  const rate = slipPerLength(growth);
  return holes.map((h) => {
    const distance = fixed === null ? 0 : distance2(h.at, fixed.at);
    return { bolt: h.bolt, distance, slip: rate * distance };
  });
}

/** Slips below this, mm, leave a hole round. */
const LEAST_SLIP = 0.005;

/**
 * The holes with room for the slip on either side: slots along the line from the fixed bolt, as long as the hole and twice the slip,
 * or round holes as wide. So the end holes come out larger than those in the middle.
 */
export function grownHoles(growth: GrowthPlan, holes: readonly FlangeHole[]): readonly FlangeHole[] {
  const fixed = fixedBolt(growth, holes);
  const slips = growthOf(growth, holes);
  return holes.map((hole, i) => {
    const room = 2 * Math.abs(slips[i]!.slip);
    if (fixed === null || room < 2 * LEAST_SLIP) return hole;
    if (growth.holes === 'round') return { ...hole, diameter: hole.diameter + room };
    const [x, y] = sub2(hole.at, fixed.at);
    return { ...hole, slot: { length: hole.diameter + room, angle: Math.atan2(y, x) } };
  });
}
