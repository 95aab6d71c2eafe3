import { pointFrom } from '../geometry/frame.js';
import { type Candidate, inletOf, weigh } from './candidates.js';
import type { Choice } from './choose.js';
import type { Datum } from './datum.js';
import type { Miss } from './miss.js';
import type { RouteProblem } from './problem.js';
import { choiceOf } from './refine.js';
import { givenCandidate } from './search.js';
import { polygonOf, type Trial, trimLength } from './trial.js';

/**
 * A choice found in a problem as seen from a datum, for the problem itself: in the plan's order and the world's axes, from the ends
 * as they are and of the length as it is, to the last digit.
 */
export function choiceInPlan(problem: RouteProblem, datum: Datum, { candidates }: Choice): Choice {
  return choiceOf(
    problem,
    problem.runners.map((runner, i) => {
      const found = candidates[datum.runners.indexOf(i)]!;
      if (!found.trial) return givenCandidate(problem, i, runner.given!);
      return asItIs(problem, i, inletInPlan(datum, runner.collector, found.inlet), trialInPlan(datum, found.trial));
    }),
  );
}

const inletInPlan = (datum: Datum, collector: number, inlet: number): number => datum.inlets[collector]![inlet - 1]!;

const trialInPlan = ({ frame }: Datum, trial: Trial): Trial => ({
  ...trial,
  inner: trial.inner.map(({ at, u }) => ({ at: pointFrom(frame, at), u })),
});

function asItIs(problem: RouteProblem, runner: number, inlet: number, trial: Trial): Candidate {
  const { start, target } = problem.runners[runner]!;
  const end = inletOf(problem, runner, inlet);
  const whole = trimLength(trial, start, end, target);
  return weigh(problem, runner, inlet, whole, polygonOf(whole, start, end));
}

/** What a problem as seen from a datum was missed by, told in the order of the plan and with its numbers of inlets. */
export function missInPlan(problem: RouteProblem, datum: Datum, miss: Miss): Miss {
  const { runners } = problem;
  return {
    ...miss,
    broken: miss.broken.map((b) => ({ ...b, tubes: b.tubes.map((t) => datum.runners[t]!) })),
    nearest: runners.flatMap(({ name, collector }) =>
      miss.nearest.filter((t) => t.name === name).map((t) => ({ ...t, inlet: inletInPlan(datum, collector, t.inlet) })),
    ),
  };
}
