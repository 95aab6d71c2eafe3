import type { Plan } from '../../params/plan.js';
import type { RoutedPrimary } from '../../routing/routed.js';
import type { FlangePart } from '../flange.js';
import type { SolidPart } from '../part.js';
import { type CollectorHolder, collectorHolder } from './collector-holder.js';
import { flangeProof } from './flange-proof.js';
import { primaryJigs } from './primary-jigs.js';

/** The printed mock-up of a header, and remarks for the fabricator where it cannot stand by itself. */
export interface MockUp {
  readonly parts: readonly SolidPart[];
  readonly notes: readonly string[];
}

/** The mock-up: flanges, plugs, dummy tubes, holders of the collectors, all with their places in the world. */
export function mockUpOf(plan: Plan, primaries: readonly RoutedPrimary[], flanges: readonly FlangePart[]): MockUp {
  const holders: CollectorHolder[] = [];
  for (const [i, c] of plan.collectors.entries()) {
    if (c.from.length > 0) continue;
    const taken = holders.flatMap((h) => h.taken);
    holders.push(collectorHolder(plan, i, primaries, flanges, taken));
  }
  return {
    parts: [
      ...flanges.flatMap((f) => flangeProof(plan, f)),
      ...primaries.flatMap((p) => primaryJigs(plan, p, flanges)),
      ...holders.flatMap((h) => h.parts),
    ],
    notes: holders.flatMap((h) => h.notes),
  };
}

/** Every printed part of the mock-up. */
export const jigsOf = (
  plan: Plan,
  primaries: readonly RoutedPrimary[],
  flanges: readonly FlangePart[],
): readonly SolidPart[] => mockUpOf(plan, primaries, flanges).parts;
