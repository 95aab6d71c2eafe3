import { type Candidate, candidateOf } from './candidates.js';
import type { Choice } from './choose.js';
import { orderAllows } from './inlet-order.js';
import type { RouteProblem } from './problem.js';
import { seededRandom } from './random.js';
import { choiceOf, refine } from './refine.js';
import { better, type GoOn, holds, searchRoutes } from './search.js';

/** Sets known from like problems that are refined, and the work of it: more tries a tube where there are few. */
const REFINED = 2;
const ROUNDS = 6;
const triesFor = (tubes: number): number => 60 * Math.max(1, Math.round(4 / tubes));

/**
 * A set of routes that keeps every limit of a problem, proven: one of those known from like problems, the nearest of them refined,
 * or one found anew in so many rounds of search (0: none). Null when none turned up.
 */
export function attempt(problem: RouteProblem, known: readonly Choice[], rounds: number, goOn: GoOn): Choice | null {
  const followed = known.flatMap((k) => follow(problem, k)).sort(better);
  const asItIs = followed.find((f) => holds(problem, f));
  if (asItIs) return asItIs;
  const random = seededRandom(problem.seed * 7919 + 101);
  for (const f of followed.slice(0, REFINED)) {
    if (!goOn()) return null;
    const refined = refine(problem, f, random, ROUNDS, triesFor(problem.runners.length), goOn);
    if (holds(problem, refined)) return refined;
  }
  return rounds > 0 && goOn() ? (searchRoutes(problem, 1, rounds, goOn).proven[0] ?? null) : null;
}

/** The same trials in another problem with the same tubes; none when one of them cannot take its length or inlet there. */
function follow(problem: RouteProblem, { candidates }: Choice): Choice[] {
  const followed: Candidate[] = [];
  for (const c of candidates) {
    const again = c.trial ? candidateOf(problem, c.runner, c.inlet, c.trial) : c;
    if (!again?.shape.drawable || (c.trial === null && problem.runners[c.runner]!.given === null)) return [];
    followed.push(again);
  }
  return inAllowedOrder(problem, followed) ? [choiceOf(problem, followed)] : [];
}

/** True when tubes known from a problem of other orders meet the inlets in an order of this one. */
const inAllowedOrder = (problem: RouteProblem, candidates: readonly Candidate[]): boolean =>
  problem.collectors.every(({ allowed }, i) => {
    const mine = candidates.filter((c) => problem.runners[c.runner]!.collector === i);
    return orderAllows(
      allowed,
      mine.map((c) => ({ key: problem.runners[c.runner]!.key, inlet: c.inlet })),
    );
  });

/** The problem of some of the tubes alone, by place in its runners. */
export const partOf = (problem: RouteProblem, tubes: readonly number[]): RouteProblem => ({
  ...problem,
  runners: tubes.map((i) => problem.runners[i]!),
});

/** What a choice says of some of the tubes alone. */
export function choicePart(part: RouteProblem, choice: Choice, tubes: readonly number[]): Choice {
  const of = tubes.map((t) => choice.candidates.find((c) => c.runner === t)!);
  return choiceOf(
    part,
    of.map((c, runner) => ({ ...c, runner })),
  );
}
