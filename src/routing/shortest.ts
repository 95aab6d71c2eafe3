import { type Candidate, inletOf, randomTrial, weigh } from './candidates.js';
import type { RouteProblem, Runner } from './problem.js';
import { type Random, seededRandom } from './random.js';
import { moved } from './refine.js';
import { lengthOf, polygonOf, type Trial } from './trial.js';

/** Weight of length against broken limits while the shortest route is sought: a limit is never traded for length. */
const LENGTH_WEIGHT = 1;
const SHORT_WEIGHT = 100;

/**
 * About the shortest route from a port to any of the given inlets that keeps its own limits (straights, angles, kept-out space), mm.
 * An upper bound of the true shortest, found by random search; infinite when none was found.
 */
export function shortestRoute(problem: RouteProblem, runner: Runner, inlets: readonly number[]): number {
  const random = seededRandom(problem.seed);
  const lengths = inlets.map((inlet) => shortestTo(problem, runner, inlet, random));
  return Math.min(Number.POSITIVE_INFINITY, ...lengths);
}

function shortestTo(problem: RouteProblem, runner: Runner, inlet: number, random: Random): number {
  const end = inletOf(problem, runner, inlet);
  const at = (trial: Trial): { trial: Trial; value: number; short: number; length: number } => {
    const c: Candidate = weigh(problem, runner, inlet, trial, polygonOf(trial, runner.port, end));
    const length = lengthOf(trial, runner.port, end);
    return { trial, length, short: c.short, value: LENGTH_WEIGHT * length + SHORT_WEIGHT * c.short };
  };
  const starts = [0, 1, 2].flatMap((inner) =>
    Array.from({ length: 30 }, () => at(randomTrial(problem, runner, inlet, inner, random))),
  );
  starts.sort((a, b) => a.value - b.value);
  let shortest = Number.POSITIVE_INFINITY;
  for (const start of starts.slice(0, 4)) {
    let best = start;
    let step = 20;
    for (let i = 0; i < 400 && step > 0.05; i++) {
      const next = at(moved(best.trial, step, random));
      const helps = next.value < best.value;
      if (helps) best = next;
      step *= helps ? 1.6 : 0.95;
    }
    if (best.short < 0.05) shortest = Math.min(shortest, best.length);
  }
  return shortest;
}
