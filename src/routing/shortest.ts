import { inletOf, randomTrial, weigh } from './candidates.js';
import { inletsOf } from './inlet-order.js';
import { isLower } from './last-digits.js';
import type { RouteProblem } from './problem.js';
import { type Random, seededRandom } from './random.js';
import { moved } from './refine.js';
import { lengthOf, polygonOf, type Trial } from './trial.js';

/** Weight of broken limits against length while the shortest route is sought: a limit is never traded for length. */
const SHORT_WEIGHT = 100;

/**
 * About the shortest route from a tube's start to any inlet it may take that keeps its own limits (straights, angles, kept-out
 * space), mm. An upper bound of the true shortest, found by random search; infinite when none was found.
 */
export function shortestRoute(problem: RouteProblem, runner: number): number {
  const { collector, key } = problem.runners[runner]!;
  const { allowed, inlets } = problem.collectors[collector]!;
  const random = seededRandom(problem.seed);
  const lengths = inletsOf(allowed, key, inlets.length).map((inlet) => shortestTo(problem, runner, inlet, random));
  return Math.min(Number.POSITIVE_INFINITY, ...lengths);
}

function shortestTo(problem: RouteProblem, runner: number, inlet: number, random: Random): number {
  const { start, sections } = problem.runners[runner]!;
  const end = inletOf(problem, runner, inlet);
  const at = (trial: Trial): { trial: Trial; value: number; short: number; length: number } => {
    const { short } = weigh(problem, runner, inlet, trial, polygonOf(trial, start, end));
    const length = lengthOf(trial, start, end);
    return { trial, length, short, value: length + SHORT_WEIGHT * short };
  };
  const starts = [0, 1, 2].flatMap((inner) =>
    Array.from({ length: 30 }, () => at(randomTrial(problem, runner, inlet, inner, random))),
  );
  starts.sort((a, b) => a.value - b.value);
  let shortest = Number.POSITIVE_INFINITY;
  for (const begun of starts.slice(0, 4)) {
    let best = begun;
    let step = 20;
    for (let i = 0; i < 400 && step > 0.05; i++) {
      const next = at(moved(best.trial, step, sections, random));
      const helps = isLower(next.value, best.value);
      if (helps) best = next;
      step *= helps ? 1.6 : 0.95;
    }
    if (best.short < 0.05) shortest = Math.min(shortest, best.length);
  }
  return shortest;
}
