import type { Finding } from './checks/finding.js';
import { check, passes } from './checks/rules.js';
import type { OutputFile } from './export/output-file.js';
import { plateFiles } from './export/print/print-3mf.js';
import { inletTube } from './params/collector/inlet-tube.js';
import { lengthsIn } from './params/faults/wording.js';
import type { Plan } from './params/plan.js';
import { collectorAids as aidsOf, unprintable } from './parts/collector/aids.js';
import { type Collector, collectorOf } from './parts/collector/collector.js';
import { type FlangePart, flangesOf } from './parts/flange/flange.js';
import { benchJigs } from './parts/jigs/bench/bench.js';
import { fitCoupon } from './parts/jigs/fit-coupon.js';
import { mockUpOf } from './parts/jigs/jigs.js';
import { assemblyProof } from './parts/jigs/proof.js';
import type { SolidPart } from './parts/part.js';
import type { Pattern } from './parts/patterns/pattern.js';
import { patternsOf } from './parts/patterns/patterns.js';
import { type PrintPlates, platesOfMockUp } from './parts/print-plates/print-plates.js';
import { collectorFiles } from './parts/printed-part.js';
import type { StockBill } from './parts/stock/bill.js';
import { stockBillOf } from './parts/stock/bill-of.js';
import { cutsOf, type TubeCuts } from './parts/tube/tube-cuts.js';
import type { Gap } from './routing/clearance.js';
import { type EarlierRoute, followRoutes } from './routing/follow.js';
import type { Clock, Miss } from './routing/miss.js';
import type { Placement, RouteProblem } from './routing/problem.js';
import type { RoutedPrimary, RoutedSecondary } from './routing/routed.js';
import { type RouteSet, type SolveOptions, solve } from './routing/solve.js';
import { withTargets } from './tuning/targets.js';

/** Told what is being done, for people who wait. */
export type Progress = (step: string) => void;

/** Tells nobody. */
export const silent: Progress = () => {};

/** A header with its routes and the outcome of every check that needs no solid. */
export interface RoutedHeader {
  /** The plan with its collectors and common length where the solver placed them. */
  readonly plan: Plan;
  /** What the search was asked: ends, limits and space. */
  readonly problem: RouteProblem;
  /** Routed primaries, by cylinder. */
  readonly primaries: readonly RoutedPrimary[];
  /** Routed secondaries; none without 4-2-1. */
  readonly secondaries: readonly RoutedSecondary[];
  /** Least distances between tubes and to kept-out space. */
  readonly gaps: readonly Gap[];
  /** What the search weighed the routes at; less is better. */
  readonly cost: number;
  /** True when the search was stopped before its work was done: with more time it may find other routes. */
  readonly cutShort: boolean;
  /** The flanges, one or more a head. */
  readonly flanges: readonly FlangePart[];
  /** What every check found. */
  readonly findings: readonly Finding[];
  /** True when no finding breaks a limit. */
  readonly passed: boolean;
}

/** Routed headers, or why there are none. */
export type Routing =
  /** Headers of different inlet orders or numbers of bends, best first. */
  | {
      readonly ok: true;
      /** The best. */
      readonly header: RoutedHeader;
      /** Headers of different inlet orders or numbers of bends, best first. */
      readonly alternatives: readonly RoutedHeader[];
    }
  | {
      readonly ok: false;
      /** What is in the way and what would mend it. */
      readonly miss: Miss;
    };

/**
 * Fixes the target length, routes the tubes of a plan and checks them; when no set of routes holds, says what is in the way. Throws
 * RangeError where a tuned length cannot be reckoned: `withTargets` tells so before.
 */
export function routeHeader(wanted: Plan, options: SolveOptions = {}, progress: Progress = silent): Routing {
  const plan = aimed(wanted);
  progress('routing the tubes');
  let cutShort = false;
  const { goOn = () => true } = options;
  const watched: Clock = (share) => {
    const on = goOn(share);
    cutShort ||= !on;
    return on;
  };
  const solution = solve(plan, { ...options, goOn: watched });
  if (!solution.ok) return solution;
  progress('checking');
  const flanges = flangesOf(plan);
  const [header, ...alternatives] = solution.sets.map((set) => headerOf(plan, set, flanges, cutShort));
  return { ok: true, header: header!, alternatives };
}

/** A header whose routes followed a change of the plan: shown while it is being shaped, not what `routeHeader` finds. */
export interface FollowedHeader extends RoutedHeader {
  /** True when the routes keep every limit. */
  readonly holds: boolean;
}

/** The routes of an earlier, similar plan bent to fit this one, checked; null when a tube cannot follow. */
export function followHeader(plan: Plan, earlier: readonly EarlierRoute[]): FollowedHeader | null {
  const followed = followRoutes(plan, earlier);
  return followed && { ...headerOf(plan, followed.set, flangesOf(plan), false), holds: followed.holds };
}

function aimed(plan: Plan): Plan {
  const targets = withTargets(plan);
  if (targets.ok) return targets.plan;
  throw new RangeError(targets.faults.map((f) => `${f.path.join('.')}: ${f.message}`).join('; '));
}

function headerOf(plan: Plan, set: RouteSet, flanges: readonly FlangePart[], cutShort: boolean): RoutedHeader {
  const placed = placedPlan(plan, set.placement);
  const { problem, primaries, secondaries, gaps, cost } = set;
  const findings = check({
    plan: placed,
    problem,
    primaries,
    secondaries,
    gaps,
    cutShort,
    flanges,
    jigs: [],
    jigNotes: [],
    bill: null,
  });
  return {
    plan: placed,
    problem,
    primaries,
    secondaries,
    gaps,
    cost,
    cutShort,
    flanges,
    findings,
    passed: passes(findings),
  };
}

const placedPlan = (plan: Plan, { frames, length }: Placement): Plan => ({
  ...plan,
  collectors: plan.collectors.map((c, i) => ({ ...c, frame: frames[i]! })),
  runners: { ...plan.runners, length },
});

/** A header with everything that is made for it. */
export interface BuiltHeader extends RoutedHeader {
  /** Every primary, then every secondary, as it is cut and put together. */
  readonly cuts: readonly TubeCuts[];
  /** What to buy and how it is cut. */
  readonly bill: StockBill;
  /** With their printed solids. */
  readonly collectors: readonly Collector[];
  /** Printed beside the collectors: pieces for the bed, gauges of the merges, saw blocks. */
  readonly collectorAids: readonly SolidPart[];
  /** Printed jigs, with their places in the world. */
  readonly jigs: readonly SolidPart[];
  /** Printed to find the printer's fit; it has no place in the assembly. */
  readonly coupon: readonly SolidPart[];
  /** Jigs and coupon on build plates, and the plates as files: the library that writes them loads while one waits. */
  readonly printPlates: PrintPlates;
  /** Build plates as 3MF. */
  readonly plateFiles: readonly OutputFile[];
  /** Flat developments at 1:1. */
  readonly patterns: readonly Pattern[];
}

/** Makes the parts of a routed header: cut list, collectors, jigs; and checks them too. */
export async function buildHeader(header: RoutedHeader, progress: Progress = silent): Promise<BuiltHeader> {
  const { plan, primaries, secondaries } = header;
  progress('building the collectors');
  const names = collectorFiles(plan.collectors);
  const collectors = plan.collectors.map((c, i) =>
    collectorOf(c, inletTube(plan, c), plan.jig.bed, names[i]!, plan.tube.material, plan.jig.chamfer, plan.units),
  );
  const collectorAids = collectors.flatMap((c) => aidsOf(c, plan.jig));
  progress('building the jigs');
  const { parts: mockUp, notes: jigNotes, holders } = mockUpOf(header);
  const bench = benchJigs(plan, primaries, secondaries);
  const jigs = [...mockUp, ...bench.parts];
  progress('putting the jigs together');
  const proof = assemblyProof(plan, [...primaries, ...secondaries], mockUp);
  const coupon = fitCoupon(plan.jig);
  const printed = [...jigs, ...collectorAids];
  progress('nesting the pieces in stock');
  const cuts = [...primaries, ...secondaries].map((tube) => cutsOf(plan, tube));
  const bill = await stockBillOf(
    plan,
    cuts.flatMap((c) => c.pieces),
  );
  const findings = check({
    ...header,
    jigs: [...printed, ...coupon, ...unprintable(collectors, collectorAids)],
    jigNotes,
    holders,
    benchNotes: bench.notes,
    proof,
    bill,
  });
  progress('laying the patterns flat');
  const patterns = patternsOf(
    plan,
    collectors.map((c) => c.geometry),
  );
  progress('laying out the build plates');
  const plates = platesOfMockUp(coupon, printed, plan.jig);
  return {
    ...header,
    cuts,
    bill,
    collectors,
    collectorAids,
    jigs,
    coupon,
    patterns,
    printPlates: plates,
    plateFiles: await plateFiles(plates.plates, plan.name),
    findings,
    passed: passes(findings),
  };
}

/** The verdict in one line. */
export function verdictOf({ plan, primaries, findings, passed }: RoutedHeader): string {
  const words = lengthsIn(plan.units);
  const spread = findings.find((f) => f.id === 'equal-length.spread')!;
  const tubes = primaries.length === 1 ? 'primary' : 'primaries';
  const count = `${primaries.length} ${tubes} of ${words(plan.runners.length, 1)}`;
  const failed = findings.filter((f) => f.level === 'fail').length;
  const end = passed ? 'all checks hold' : `${failed} ${failed === 1 ? 'check fails' : 'checks fail'}`;
  return `${count}, spread ${words(spread.value, 3)} of ${words(spread.limit, 3)} allowed: ${end}.`;
}
