import { pathFromPolygon, pathLength } from '../geometry/path.js';
import type { GivenRoute } from '../params/plan.js';
import { type Candidate, different, sampleCandidates, weigh } from './candidates.js';
import { type Choice, choose } from './choose.js';
import { gapsOf } from './clearance.js';
import { type Miss, missOf } from './miss.js';
import { givenInlet, type RouteProblem, type Runner } from './problem.js';
import { seededRandom } from './random.js';
import { improve, refine } from './refine.js';
import type { RoutedPrimary } from './routed.js';

export type Solution =
  | { readonly ok: true; readonly primaries: readonly RoutedPrimary[] }
  | { readonly ok: false; readonly miss: Miss };

/** Work of each round: how many times the trials, and how many candidates are kept per inlet. */
const ROUNDS = [
  { effort: 1, keep: 7 },
  { effort: 3, keep: 10 },
  { effort: 8, keep: 14 },
] as const;

/** Choices of different inlet orders that are refined in a round. */
const CHOICES = 3;

/**
 * Routes every primary of a problem at its target length, or says what is in the way. Work is counted, not timed: the same
 * problem always gives the same answer.
 */
export function solve(problem: RouteProblem): Solution {
  let nearest: Choice | null = null;
  for (const [i, round] of ROUNDS.entries()) {
    const random = seededRandom(problem.seed * 7919 + i);
    const options = problem.runners.map((r) => optionsOf(problem, r, random, round.effort, round.keep));
    const choices = options.every((list) => list.length > 0) ? choose(problem, options, CHOICES) : [];
    const refined = choices.map((c) => refine(problem, c, random, 6, 60)).sort(better);
    for (const choice of refined) {
      const finished = choice.short === 0 ? refine(problem, choice, random, 4, 120) : choice;
      if (!nearest || better(finished, nearest) < 0) nearest = finished;
      if (finished.short > 0) break;
      const primaries = finished.candidates.map(routed);
      if (holds(problem, primaries)) return { ok: true, primaries };
    }
  }
  return { ok: false, miss: missOf(problem, nearest) };
}

const better = (a: Choice, b: Choice): number => a.short - b.short || a.cost - b.cost;

/** Candidates for one primary over all inlets it may take. */
function optionsOf(
  problem: RouteProblem,
  runner: Runner,
  random: () => number,
  effort: number,
  keep: number,
): Candidate[] {
  if (runner.given) return [givenCandidate(problem, runner, runner.given)];
  const orders = problem.collectors[runner.collector]!.orders;
  const inlets = [...new Set(orders.map((o) => o.indexOf(runner.cylinder) + 1))].sort((a, b) => a - b);
  return inlets.flatMap((inlet) => {
    const found = sampleCandidates(problem, runner, inlet, random, effort, 2 * keep);
    const improved = found.map((c) => improve(problem, c, [], random, c.short > 0 ? 40 : 12, 12));
    return different(improved, keep);
  });
}

/** A route given by hand stands as it is: the search neither weighs nor moves it. */
function givenCandidate(problem: RouteProblem, runner: Runner, given: GivenRoute): Candidate {
  const inlet = givenInlet(given, problem.collectors[runner.collector]!.inlets);
  return { ...weigh(problem, runner, inlet, null, given), cost: 0, short: 0 };
}

/** The exact route of a candidate. */
export function routed(c: Candidate): RoutedPrimary {
  const path = pathFromPolygon(c.polygon);
  return {
    cylinder: c.runner.cylinder,
    collector: c.runner.collector,
    inlet: c.inlet,
    polygon: c.polygon,
    path,
    length: pathLength(path),
    givenByHand: c.runner.given !== null,
  };
}

/** True when every limit the search only estimated holds exactly. Routes given by hand are left to the checks. */
function holds(problem: RouteProblem, primaries: readonly RoutedPrimary[]): boolean {
  const byHand = new Set(primaries.filter((p) => p.givenByHand).map((p) => p.cylinder));
  return gapsOf(problem, primaries).every((g) => g.value >= g.limit - 0.01 || g.cylinders.every((c) => byHand.has(c)));
}
