import type { Vec3 } from '../geometry/vec3.js';
import { type Candidate, candidateOf } from './candidates.js';
import { type Choice, pairTally } from './choose.js';
import type { RouteProblem } from './problem.js';
import { normal, type Random } from './random.js';
import type { Trial } from './trial.js';

/** Cost of a candidate among the others of a choice. */
function costAmong(problem: RouteProblem, c: Candidate, others: readonly Candidate[], bound: number): number {
  let cost = c.cost;
  for (const o of others) {
    if (cost >= bound) return cost;
    cost += pairTally(problem, c, o).cost;
  }
  return cost;
}

/**
 * Improves one candidate among fixed others by small random moves that keep the length: a step that helps is kept and the step
 * size grows, one that does not lets it shrink ((1+1) evolution strategy with the one-fifth rule; Rechenberg, 1973).
 */
export function improve(
  problem: RouteProblem,
  start: Candidate,
  others: readonly Candidate[],
  random: Random,
  tries: number,
  firstStep: number,
): Candidate {
  if (!start.trial) return start;
  let best = start;
  let bestCost = costAmong(problem, start, others, Number.POSITIVE_INFINITY);
  let step = firstStep;
  for (let i = 0; i < tries && step > 0.01; i++) {
    const c = candidateOf(problem, best.runner, best.inlet, moved(best.trial!, step, random));
    const cost = c ? costAmong(problem, c, others, bestCost) : Number.POSITIVE_INFINITY;
    if (c && cost < bestCost) {
      best = c;
      bestCost = cost;
      step *= 1.6;
    } else {
      step *= 0.89;
    }
  }
  return best;
}

/** A trial with its legs and inner points moved at random, some of them or all. */
export function moved(trial: Trial, step: number, random: Random): Trial {
  const all = random() < 0.5;
  const shift = (x: number): number => (all || random() < 0.4 ? x + normal(random) * step : x);
  return {
    ...trial,
    fromPort: shift(trial.fromPort),
    toInlet: shift(trial.toInlet),
    inner: trial.inner.map((p): Vec3 => [shift(p[0]), shift(p[1]), shift(p[2])]),
  };
}

/** A choice weighed afresh from its candidates. */
export function choiceOf(problem: RouteProblem, candidates: readonly Candidate[]): Choice {
  let cost = 0;
  let short = 0;
  candidates.forEach((c, i) => {
    cost += c.cost;
    short += c.short;
    for (const o of candidates.slice(i + 1)) {
      const t = pairTally(problem, c, o);
      cost += t.cost;
      short += t.short;
    }
  });
  return { candidates, cost, short };
}

/** Improves all primaries of a choice in turn, again and again, until a round gains less than one part in a thousand. */
export function refine(problem: RouteProblem, choice: Choice, random: Random, rounds: number, tries: number): Choice {
  let now = choice;
  let step = 15;
  for (let round = 0; round < rounds; round++) {
    const candidates = [...now.candidates];
    for (let i = 0; i < candidates.length; i++) {
      const others = candidates.filter((_, j) => j !== i);
      candidates[i] = improve(problem, candidates[i]!, others, random, tries, step);
    }
    const next = choiceOf(problem, candidates);
    const gain = now.cost - next.cost;
    now = next;
    if (now.short === 0 && gain < 1e-3 * now.cost) break;
    step = Math.max(1, step * 0.8);
  }
  return now;
}
