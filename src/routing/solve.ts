import type { Plan } from '../params/plan.js';
import { candidateOf } from './candidates.js';
import type { Choice } from './choose.js';
import { type Gap, gapsOf } from './clearance.js';
import { type Clock, explain, type Miss } from './miss.js';
import { isFree, movedVariation, placementOf, plannedVariation, startVariations, type Variation } from './placement.js';
import { type Placement, problemOf, type RouteProblem } from './problem.js';
import { type Random, seededRandom } from './random.js';
import { choiceOf } from './refine.js';
import type { RoutedPrimary, RoutedSecondary, RoutedTube } from './routed.js';
import { better, firstRoutes, type GoOn, routed, searchRoutes } from './search.js';
import { choiceInPlan, missInPlan } from './seen-back.js';
import { problemFor, type Setting, settingOf } from './seen-problem.js';

/** A set of routes that keeps every limit. */
export interface RouteSet {
  readonly placement: Placement;
  readonly problem: RouteProblem;
  readonly primaries: readonly RoutedPrimary[];
  readonly secondaries: readonly RoutedSecondary[];
  readonly gaps: readonly Gap[];
  /** What the search weighed it at: fewer bends, less angle, larger radii and wider gaps cost less. */
  readonly cost: number;
}

export type Solution =
  /** Of different inlet orders or numbers of bends, best first. */
  { readonly ok: true; readonly sets: readonly RouteSet[] } | { readonly ok: false; readonly miss: Miss };

/** How hard to look, and for how many answers. */
export interface SolveOptions {
  /** How many different sets of routes are wanted. */
  readonly alternatives?: number;
  /** True for the first set that holds, unrefined, where one turns up soon: for a look. */
  readonly quick?: boolean;
  /** False once a share of the time (all of it when not named) is up. */
  readonly goOn?: Clock;
}

/** Placements tried at first where the plan leaves freedom, and moves tried on the best of them. */
const PLACEMENTS = 6;
const SETTLING = 160;

/** Part of the time in which a set of routes must turn up: the rest is kept for saying why none does. */
const SEARCHING = 0.5;

/**
 * Routes every tube of a plan at its target length, within the plan's freedom, or says what is in the way. Work is counted, not
 * timed: the same plan always gives the same answer unless its time budget ends the search early.
 */
export function solve(plan: Plan, { alternatives = 1, quick = false, goOn = () => true }: SolveOptions = {}): Solution {
  const setting = settingOf(plan);
  const first = quick ? quickSet(setting, goOn) : null;
  if (first) return { ok: true, sets: [first] };
  const random = seededRandom(plan.runners.seed);
  const free = isFree(plan);
  let best: Attempt[] = [];
  let nearest: Attempt | null = null;
  const searching: GoOn = () => goOn(best.length > 0 ? 1 : SEARCHING);
  for (const variation of startVariations(plan, setting.datum, PLACEMENTS, random)) {
    if (!searching()) break;
    const problem = problemFor(setting, variation);
    const found = searchRoutes(problem, alternatives, free ? 1 : 3, searching);
    const attempt = (choice: Choice): Attempt => ({ variation, problem, choice });
    if (found.nearest && (!nearest || better(found.nearest, nearest.choice) < 0)) nearest = attempt(found.nearest);
    best = [...best, ...found.proven.map(attempt)];
  }
  if (free) best = best.map((a) => settle(setting, a, random, goOn));
  best.sort((a, b) => better(a.choice, b.choice));
  if (best.length > 0) return { ok: true, sets: best.slice(0, alternatives).map((a) => setOf(setting, a)) };
  const variation = nearest?.variation ?? plannedVariation(plan);
  const problem = nearest?.problem ?? problemFor(setting, variation);
  const { found, miss } = explain(problem, nearest?.choice ?? null, goOn, !searching());
  if (found) return { ok: true, sets: [setOf(setting, { variation, problem, choice: found })] };
  return { ok: false, miss: missInPlan(problemOf(plan, undefined, setting.space), setting.datum, miss) };
}

function quickSet(setting: Setting, goOn: GoOn): RouteSet | null {
  const variation = plannedVariation(setting.plan);
  const problem = problemFor(setting, variation);
  const choice = firstRoutes(problem, goOn);
  return choice && setOf(setting, { variation, problem, choice });
}

/** Routes found for a variation; the problem is as the search sees it. */
export interface Attempt {
  readonly variation: Variation;
  readonly problem: RouteProblem;
  readonly choice: Choice;
}

/** Moves the collectors and the common length within their freedom while that makes the routes better; all tubes follow. */
function settle(setting: Setting, start: Attempt, random: Random, goOn: GoOn): Attempt {
  const { plan, datum } = setting;
  let best = start;
  let step = 0.15;
  for (let i = 0; i < SETTLING && step > 0.002 && goOn(); i++) {
    const variation = movedVariation(plan, datum, best.variation, step, random);
    const problem = problemFor(setting, variation);
    const followed = best.choice.candidates.map((c) => c.trial && candidateOf(problem, c.runner, c.inlet, c.trial));
    const candidates = followed.filter((c) => c !== null);
    const choice = candidates.length === followed.length ? choiceOf(problem, candidates) : null;
    const helps = choice !== null && better(choice, best.choice) < 0 && provenBy(problem, choice);
    if (helps) best = { variation, problem, choice };
    step *= helps ? 1.5 : 0.93;
  }
  return best;
}

function provenBy(problem: RouteProblem, choice: Choice): boolean {
  if (choice.short > 0) return false;
  return gapsOf(
    problem,
    choice.candidates.map((c) => routed(problem, c)),
  ).every((g) => g.value >= g.limit - 0.01);
}

/** Routes found for a plan, in its world and order. */
export function setOf({ plan, datum, space }: Setting, { variation, choice: seen }: Attempt): RouteSet {
  const placement = placementOf(plan, datum, variation);
  const problem = problemOf(plan, placement, space);
  const choice = choiceInPlan(problem, datum, seen);
  const tubes = choice.candidates.map((c) => routed(problem, c));
  return {
    placement,
    problem,
    primaries: tubes.flatMap((t) => primaryOf(plan, t)),
    secondaries: tubes.flatMap((t) => secondaryOf(plan, t)),
    gaps: gapsOf(problem, tubes),
    cost: choice.cost,
  };
}

function primaryOf(plan: Plan, tube: RoutedTube): RoutedPrimary[] {
  const port = plan.ports.find((p) => String(p.cylinder) === tube.id);
  return port ? [{ ...tube, cylinder: port.cylinder }] : [];
}

function secondaryOf(plan: Plan, tube: RoutedTube): RoutedSecondary[] {
  const from = plan.collectors.findIndex((c) => c.name === tube.id);
  return from >= 0 ? [{ ...tube, from }] : [];
}
