import type { Plan } from '../../params/plan.js';
import type { RoutedPrimary } from '../../routing/routed.js';
import type { FlangePart } from '../flange.js';
import type { SolidPart } from '../part.js';
import { flangeProof } from './flange-proof.js';
import { primaryJigs } from './primary-jigs.js';

/** Every printed part of the mock-up: flanges, plugs, dummy tubes, holders of the collectors. */
export function jigsOf(plan: Plan, primaries: readonly RoutedPrimary[], flanges: readonly FlangePart[]): SolidPart[] {
  return [...flanges.flatMap((f) => flangeProof(plan, f)), ...primaries.flatMap((p) => primaryJigs(plan, p, flanges))];
}
