import { pathFromPolygon } from '../geometry/path/control-polygon.js';
import { pathLength } from '../geometry/path/path.js';
import type { GivenRoute } from '../params/plan.js';
import { type Candidate, different, sampleCandidates, weigh } from './candidates.js';
import { type Choice, choose, topologyKey } from './choose.js';
import { gapsOf } from './clearance.js';
import { givenInlet, inletsOf } from './inlet-order.js';
import { isLower } from './last-digits.js';
import { type LimitKind, MOST_MARGIN, type Visit, visitOwn, visitPair } from './limits.js';
import type { RouteProblem } from './problem.js';
import { type Random, seededRandom } from './random.js';
import { improve, refine } from './refine.js';
import type { RoutedTube } from './routed.js';

/** True while there is time left. */
export type GoOn = () => boolean;

/** What a search came to: proven sets of routes, best first, and the nearest miss when there is none. */
export interface Found {
  readonly proven: readonly Choice[];
  readonly nearest: Choice | null;
}

/** Work of a round: how many times the trials, and how many candidates are kept per tube. */
interface Round {
  readonly effort: number;
  readonly keep: number;
}

const ROUNDS: readonly Round[] = [
  { effort: 1, keep: 24 },
  { effort: 3, keep: 36 },
  { effort: 8, keep: 48 },
];

/** Least share of a tube's trials that every inlet gets, so that many inlets do not starve each other. */
const LEAST_SHARE = 0.25;

/**
 * Looks for sets of routes that keep every limit, of `want` different topologies if there are so many. Work is counted, so that
 * the same problem gives the same answer; time only ends it early.
 */
export function searchRoutes(problem: RouteProblem, want: number, rounds: number, goOn: GoOn): Found {
  const proven: Choice[] = [];
  let nearest: Choice | null = null;
  for (const [i, round] of ROUNDS.slice(0, rounds).entries()) {
    if (!goOn()) break;
    const random = seededRandom(problem.seed * 7919 + i);
    const options = problem.runners.map((_, r) => optionsOf(problem, r, random, round, goOn));
    const choices = options.every((list) => list.length > 0) ? choose(problem, options, 3 * want) : [];
    const refined = choices.map((c) => refine(problem, c, random, 6, 60, goOn)).sort(better);
    for (const choice of refined) {
      const close = onlyMarginShort(problem, choice);
      const finished = close ? refine(problem, choice, random, 4, 120, goOn) : choice;
      if (!nearest || better(finished, nearest) < 0) nearest = finished;
      if (!close) break;
      if (proven.some((p) => topologyKey(p.candidates) === topologyKey(finished.candidates))) continue;
      if (holds(problem, finished)) proven.push(finished);
      if (proven.length >= want) break;
    }
    if (proven.length > 0 && (proven.length >= want || i > 0)) break;
  }
  return { proven: proven.sort(better), nearest };
}

/** Work of the rounds of a quick search: less in each, more of them. */
const QUICK_ROUNDS: readonly Round[] = [
  { effort: 0.12, keep: 8 },
  { effort: 0.3, keep: 12 },
  { effort: 1, keep: 16 },
];

/** The first set of routes that turns up and keeps every limit, as it is; null when none does soon. For a look, not for the saw. */
export function firstRoutes(problem: RouteProblem, goOn: GoOn): Choice | null {
  for (const [i, round] of QUICK_ROUNDS.entries()) {
    if (!goOn()) break;
    const random = seededRandom(problem.seed * 7919 + 17 * i);
    const options = problem.runners.map((_, r) => optionsOf(problem, r, random, round, goOn));
    const choices = options.every((list) => list.length > 0) ? choose(problem, options, 2) : [];
    for (const choice of choices) {
      const eased = onlyMarginShort(problem, choice) ? choice : refine(problem, choice, random, 3, 40, goOn);
      if (holds(problem, eased)) return eased;
    }
  }
  return null;
}

/** Below 0 when a choice is better than another by more than last digits. */
export const better = (a: Choice, b: Choice): number =>
  byMoreThanDigits(a.short, b.short) || byMoreThanDigits(a.cost, b.cost);

const byMoreThanDigits = (a: number, b: number): number => (isLower(a, b) || isLower(b, a) ? a - b : 0);

/** Candidates for one tube over all inlets it may take. */
function optionsOf(problem: RouteProblem, runner: number, random: Random, round: Round, goOn: GoOn): Candidate[] {
  const { given, key, collector } = problem.runners[runner]!;
  if (given) return [givenCandidate(problem, runner, given)];
  const { allowed, inlets: frames } = problem.collectors[collector]!;
  const inlets = inletsOf(allowed, key, frames.length);
  const share = Math.max(LEAST_SHARE, 1 / inlets.length);
  const each = Math.max(4, Math.ceil(round.keep / inlets.length));
  return inlets.flatMap((inlet) => {
    const found = sampleCandidates(problem, runner, inlet, random, share * round.effort, 2 * each, goOn);
    const improved = found.map((c) => (goOn() ? improve(problem, c, [], random, c.short > 0 ? 40 : 12, 12) : c));
    return different(improved, each);
  });
}

/** A route given by hand stands as it is: the search neither weighs nor moves it. */
export function givenCandidate(problem: RouteProblem, runner: number, given: GivenRoute): Candidate {
  const inlet = givenInlet(given, problem.collectors[problem.runners[runner]!.collector]!.inlets);
  return { ...weigh(problem, runner, inlet, null, given), cost: 0, short: 0 };
}

/** The exact route of a candidate. */
export function routed(problem: RouteProblem, c: Candidate): RoutedTube {
  const { id, name, collector, target, sections, given } = problem.runners[c.runner]!;
  const path = pathFromPolygon(c.polygon);
  return {
    id,
    name,
    collector,
    inlet: c.inlet,
    polygon: c.polygon,
    path,
    length: pathLength(path),
    target,
    sections: sections.map((s, i) => ({
      from: i === 0 ? 0 : c.shape.steps[i - 1]!.run,
      od: 2 * s.radius,
      wall: s.wall,
    })),
    givenByHand: given !== null,
  };
}

/** True when a choice breaks nothing but gaps, and those by no more than the margin the search adds to what it only estimates. */
function onlyMarginShort(problem: RouteProblem, choice: Choice): boolean {
  if (choice.short === 0) return true;
  let only = true;
  const visit: Visit = (kind, _a, _b, _what, value, limit) => {
    const short = limit - value;
    if (short > 1e-9 && (!ESTIMATED.has(kind) || short > MOST_MARGIN)) only = false;
  };
  visitAll(problem, choice.candidates, visit);
  return only;
}

/** Visits every limit of a choice, those of routes given by hand alone left out. */
function visitAll(problem: RouteProblem, candidates: readonly Candidate[], visit: Visit): void {
  candidates.forEach((c, i) => {
    if (c.trial) visitOwn(problem, c.runner, c.shape, c.polygon.clr, visit);
    for (const o of candidates.slice(i + 1)) {
      if (c.trial || o.trial) visitPair(problem, c.runner, c.shape.chain, o.runner, o.shape.chain, visit);
    }
  });
}

/** Limits the search measures on chains of links. */
const ESTIMATED: ReadonlySet<LimitKind> = new Set(['kept-out', 'gap', 'approach', 'run-in', 'self']);

/**
 * True when a choice keeps every limit: what the search measured exactly as it stands, every gap by its exact distance. Those of
 * routes given by hand alone are left to the checks.
 */
export function holds(problem: RouteProblem, choice: Choice): boolean {
  if (!onlyMarginShort(problem, choice)) return false;
  const tubes = choice.candidates.map((c) => routed(problem, c));
  const byHand = new Set(tubes.filter((t) => t.givenByHand).map((t) => t.id));
  return gapsOf(problem, tubes).every((g) => g.value >= g.limit - 0.01 || g.tubes.every((t) => byHand.has(t)));
}
