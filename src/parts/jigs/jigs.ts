import type { Plan } from '../../params/plan.js';
import { type KeptOut, problemOf } from '../../routing/problem.js';
import type { RoutedPrimary, RoutedSecondary } from '../../routing/routed.js';
import type { FlangePart } from '../flange/flange.js';
import type { SolidPart } from '../part.js';
import { type CollectorHolder, collectorHolder } from './collector-holder.js';
import { combsOf } from './comb.js';
import { flangeProof } from './flange-proof.js';
import type { HolderStiffness } from './holder-stiffness.js';
import { tubeFeet } from './tube-foot.js';
import { primaryJigs, secondaryJigs } from './tube-jigs.js';

/** The printed mock-up of a header, and remarks for the fabricator where it cannot stand by itself. */
export interface MockUp {
  readonly parts: readonly SolidPart[];
  readonly notes: readonly string[];
  /** How stiff the holders that have struts are. */
  readonly holders: readonly HolderStiffness[];
}

/** What the mock-up stands for. */
export interface MockUpOf {
  readonly plan: Plan;
  readonly primaries: readonly RoutedPrimary[];
  readonly secondaries: readonly RoutedSecondary[];
  readonly flanges: readonly FlangePart[];
  /** Space to keep out of as the routing knows it; left out, it is made from the plan. */
  readonly problem?: { readonly keptOut: readonly KeptOut[] };
}

const NONE: { readonly parts: readonly SolidPart[]; readonly notes: readonly string[] } = { parts: [], notes: [] };

/** The mock-up: flanges, plugs, dummy tubes, holders of the collectors, all with their places in the world. */
export function mockUpOf({ plan, primaries, secondaries, flanges, problem = problemOf(plan) }: MockUpOf): MockUp {
  const tubes = [...primaries, ...secondaries];
  // a mock-up is taken down before anyone reaches for a plug
  const toolRoom = new Set(plan.access.map((a) => `access to ${a.name}`));
  const keptOut = problem.keptOut.filter((k) => !toolRoom.has(k.name));
  const holders: CollectorHolder[] = [];
  for (const i of plan.collectors.keys()) {
    const taken = holders.flatMap((h) => h.taken);
    const before = holders.flatMap((h) => h.stiffness ?? []);
    holders.push(collectorHolder(plan, i, { tubes, flanges, keptOut, taken, before }));
  }
  const struts = holders.flatMap((h) => h.taken);
  const combs = plan.jig.comb ? combsOf(plan, tubes, keptOut, struts) : NONE;
  const feet = plan.jig.foot ? tubeFeet(plan, plan.jig.foot, { primaries, tubes, flanges, keptOut, struts }) : NONE;
  return {
    parts: [
      ...flanges.flatMap((f) => flangeProof(plan, f)),
      ...primaries.flatMap((p) => primaryJigs(plan, p, flanges)),
      ...secondaries.flatMap((s) => secondaryJigs(plan, s)),
      ...holders.flatMap((h) => h.parts),
      ...combs.parts,
      ...feet.parts,
    ],
    notes: [...holders.flatMap((h) => h.notes), ...combs.notes, ...feet.notes],
    holders: holders.flatMap((h) => h.stiffness ?? []),
  };
}
