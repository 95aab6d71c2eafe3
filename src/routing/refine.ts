import { type Candidate, candidateOf } from './candidates.js';
import { type Choice, pairTally } from './choose.js';
import { isLower } from './last-digits.js';
import type { RouteProblem, Section } from './problem.js';
import { normal, type Random } from './random.js';
import type { Trial } from './trial.js';

/** Cost of a candidate among the others of a choice; stops adding once it is not below the bound. */
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
  const { sections } = problem.runners[start.runner]!;
  let best = start;
  let bestCost = costAmong(problem, start, others, Number.POSITIVE_INFINITY);
  let step = firstStep;
  for (let i = 0; i < tries && step > 0.01; i++) {
    const c = candidateOf(problem, best.runner, best.inlet, moved(best.trial!, step, sections, random));
    const cost = c ? costAmong(problem, c, others, bestCost) : Number.POSITIVE_INFINITY;
    if (c && isLower(cost, bestCost)) {
      best = c;
      bestCost = cost;
      step *= 1.6;
    } else {
      step *= 0.89;
    }
  }
  return best;
}

/** How often a move also changes one radius, or the opening of a U-bend per mm of step. */
const OTHER_RADIUS = 0.08;
const U_PER_MM = 0.006;

/** A trial with its legs and inner points moved at random, some of them or all, and now and then another radius. */
export function moved(trial: Trial, step: number, sections: readonly Section[], random: Random): Trial {
  const all = random() < 0.5;
  const shift = (x: number): number => (all || random() < 0.4 ? x + normal(random) * step : x);
  const turn = (u: number): number => Math.min(2.2, Math.max(0.2, u + normal(random) * step * U_PER_MM));
  return {
    fromStart: shift(trial.fromStart),
    toInlet: shift(trial.toInlet),
    inner: trial.inner.map(({ at, u }) => ({
      at: [shift(at[0]), shift(at[1]), shift(at[2])],
      u: u === null ? null : turn(u),
    })),
    clr: random() < OTHER_RADIUS ? otherRadius(trial.clr, sections, random) : trial.clr,
  };
}

/** The radii with one of them replaced by another of the stock, of any section. */
function otherRadius(clr: readonly number[], sections: readonly Section[], random: Random): readonly number[] {
  const radii = [...new Set(sections.flatMap((s) => s.stock.map((b) => b.clr)))];
  if (radii.length < 2) return clr;
  const at = Math.floor(random() * clr.length);
  const to = radii[Math.floor(random() * radii.length)]!;
  return clr.map((r, i) => (i === at ? to : r));
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

/** Improves all tubes of a choice in turn, again and again, until a round gains less than one part in a thousand. */
export function refine(
  problem: RouteProblem,
  choice: Choice,
  random: Random,
  rounds: number,
  tries: number,
  goOn: () => boolean,
): Choice {
  let now = choice;
  let step = 15;
  for (let round = 0; round < rounds && goOn(); round++) {
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
