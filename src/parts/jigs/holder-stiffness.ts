import { type Compliance, inverse, principalGives, type Stiffness, together } from '../../geometry/compliance.js';
import type { Vec3 } from '../../geometry/vec3.js';
import type { CollectorPlan, Plan } from '../../params/plan.js';
import type { RoutedPrimary, RoutedSecondary } from '../../routing/routed.js';
import type { HolderStruts } from './holder-struts.js';
import { HOLDER_LOAD, strutStiffness, tubeStiffness } from './strut-stiffness.js';

/** How far a collector's holder gives way. */
export interface HolderStiffness {
  /** Name of the collector. */
  readonly collector: string;
  /** Most its inlets move under the load, mm. */
  readonly deflection: number;
  /** Diameter of its struts, mm, and their number. */
  readonly strut: number;
  readonly struts: number;
  /** Whether the diameter is the plan's own. */
  readonly given: boolean;
  /** What the stiffest struts with room there would give where none hold the limit and the chosen take less plastic; null: nothing would be gained. */
  readonly stiffest: number | null;
  /** The same as `deflection` without any dummy tube, mm. */
  readonly alone: number;
  /** How many dummy tubes are counted on: all but the one that is missed most. */
  readonly tubes: number;
  /** What is left of `deflection` with the collector stopped along its softest way, and along its two softest, mm; and that softest way. */
  readonly propped: { readonly once: number; readonly twice: number; readonly softest: Vec3 };
  /** How it gives at the middle of its inlets with all its dummy tubes, as what stands on it has it. */
  readonly compliance: Compliance;
}

/** Stiffness of the struts that stand at a holder, with the dummy tubes that arrive there. */
export function holderStiffness(
  plan: Plan,
  collector: CollectorPlan,
  { lines, block, deflection, alone, stiffest }: HolderStruts,
  arriving: readonly Stiffness[],
): HolderStiffness {
  const own = lines.map((line) => strutStiffness(block, collector.frame, line, plan.jig));
  const cases = casesOf(arriving);
  const worst = (cases.length === 0 ? [together([...own, ...arriving])] : cases.map((k) => together([...own, k])))
    .map((k) => principalGives(inverse(k), HOLDER_LOAD))
    .reduce((a, b) => (b[0]!.give > a[0]!.give ? b : a));
  return {
    collector: collector.name,
    deflection,
    propped: { once: worst[1]!.give, twice: worst[2]!.give, softest: worst[0]!.direction },
    strut: 2 * block.strut,
    struts: lines.length,
    given: plan.jig.strut !== null,
    stiffest,
    alone,
    tubes: Math.max(0, arriving.length - 1),
    compliance: inverse(together([...own, ...arriving])),
  };
}

/** What holds a collector besides its struts: the tubes that arrive at it. */
export interface Arriving {
  readonly tubes: readonly (RoutedPrimary | RoutedSecondary)[];
  /** How stiff the holders before are. */
  readonly before: readonly HolderStiffness[];
}

/** The dummy tubes that arrive at a collector: primaries are held in their plugs, secondaries stand on the holders before. */
export function dummyTubes(plan: Plan, collector: number, { tubes, before }: Arriving): Stiffness[] {
  const { origin } = plan.collectors[collector]!.frame;
  return tubes
    .filter((t) => t.collector === collector)
    .flatMap((t): Stiffness[] => {
      if (!('from' in t)) return [tubeStiffness(origin, t, null, plan.jig)];
      const from = plan.collectors[t.from]!;
      const holder = before.find((h) => h.collector === from.name);
      if (!holder) return [];
      return [tubeStiffness(origin, t, { at: from.frame.origin, compliance: holder.compliance }, plan.jig)];
    });
}

/** Every case of one dummy tube taken out to be replaced by steel; none where fewer than two stand. */
export const casesOf = (standing: readonly Stiffness[]): Stiffness[] =>
  standing.length < 2 ? [] : standing.map((_, out) => together(standing.filter((_k, i) => i !== out)));
