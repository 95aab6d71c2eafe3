import { addAllWorthwhile, generate } from './column-generation.js';
import { firstFit } from './first-fit.js';
import { type Master, masterOf, modelOf, roundedUp, slack, sum } from './master.js';
import { costOf, type Nesting, type NestingProblem, type OpenProblem, openProblem } from './nesting-problem.js';
import type { Pattern } from './pattern.js';
import type { Row, Solver } from './solver.js';

/** The best nesting found and what is proven of it. */
export interface BestNesting extends Nesting {
  readonly value: number;
  /** No nesting that makes as many of the pieces costs less. */
  readonly bound: number;
  readonly optimal: boolean;
  /** What first-fit-decreasing costs, where it makes as many pieces; null where it makes fewer. */
  readonly firstFit: number | null;
}

/**
 * The least stock that makes the pieces: column generation over cutting patterns (Gilmore and Gomory 1961, 1963), then whole numbers
 * of the patterns found. The bound is that of the linear model over all patterns (Farley 1990 where it stops early), rounded up to
 * what values can be; where it is not met, every pattern that could still save is added, which proves the optimum unless there are
 * too many of them. Never worse than first-fit-decreasing. Pieces for which stock runs short are the fewest.
 */
export function nest(given: NestingProblem, solver: Solver): BestNesting {
  const problem = openProblem(given);
  const plain = firstFit(problem);
  const master = masterOf(problem, plain);
  const goal = costOf(problem, plain) + master.penalty * sum(plain.short);
  const linear = generate(master, goal, solver);
  const total = (n: Nesting): number => costOf(problem, n) + master.penalty * sum(n.short);
  let bound = roundedUp(linear.bound, master.step);
  const met = goal - bound <= slack(master.step);
  let best = met ? plain : betterOf(problem, plain, wholeNumbers(master, solver)?.nesting ?? null);
  if (linear.duals !== null && total(best) - bound > slack(master.step)) {
    const complete = addAllWorthwhile(master, linear.duals, total(best) - linear.bound - master.step);
    const closed = complete ? wholeNumbers(master, solver) : null;
    best = betterOf(problem, best, closed?.nesting ?? null);
    if (closed?.proven) bound = total(best);
  }
  const short = sum(best.short);
  const value = costOf(problem, best);
  // what the bound says of nestings that leave as many pieces unmade
  const proven = Math.min(value, Math.max(0, bound - master.penalty * short));
  const optimal = value - proven <= slack(master.step);
  return {
    ...(optimal ? shortest(master, best, solver) : best),
    value,
    bound: optimal ? value : proven,
    optimal,
    firstFit: sum(plain.short) === short ? costOf(problem, plain) : null,
  };
}

/** Whole numbers of the patterns of the master; null when none were found. */
function wholeNumbers(master: Master, solver: Solver): { readonly nesting: Nesting; readonly proven: boolean } | null {
  const solution = solver(modelOf(master, true));
  return solution && { nesting: nestingOf(master, solution.values), proven: solution.proven };
}

/** What patterns give beyond what is wanted is not cut. */
function nestingOf({ problem, columns }: Master, values: readonly number[]): Nesting {
  const short = problem.classes.map((c) => c.demand);
  const patterns = columns.flatMap((pattern, i) =>
    Array.from({ length: Math.round(values[i]!) }, (): Pattern[] => {
      const cuts = pattern.cuts.filter(({ piece }) => {
        short[piece]! -= 1;
        return short[piece]! >= 0;
      });
      for (let k = 0; k < short.length; k++) short[k] = Math.max(0, short[k]!);
      return cuts.length > 0 ? [{ ...pattern, cuts }] : [];
    }).flat(),
  );
  return { patterns, short };
}

/** Fewer pieces unmade, then lower cost; the first of equals. */
function betterOf(problem: OpenProblem, a: Nesting, b: Nesting | null): Nesting {
  if (b === null) return a;
  const [more, cost] = [sum(b.short) - sum(a.short), costOf(problem, b) - costOf(problem, a)];
  return more < 0 || (more === 0 && cost < -1e-9) ? b : a;
}

/** Of the nestings of the same cost from the patterns found, one of the least length of stock. */
function shortest(master: Master, best: Nesting, solver: Solver): Nesting {
  const { problem, columns } = master;
  if (problem.items.length < 2) return best;
  const model = modelOf(master, true);
  const cost: Row = {
    terms: model.costs.map((c, i) => [i, c] as const),
    sense: '<=',
    limit: costOf(problem, best) + master.penalty * sum(best.short) + slack(master.step) / 2,
  };
  const lengths = model.costs.map((_, i) => (i < columns.length ? problem.items[columns[i]!.item]!.length / 1000 : 0));
  const solution = solver({ ...model, costs: lengths, rows: [...model.rows, cost] });
  if (solution === null) return best;
  const found = nestingOf(master, solution.values);
  const length = (n: Nesting): number => sum(n.patterns.map((p) => problem.items[p.item]!.length));
  const same = sum(found.short) === sum(best.short) && costOf(problem, found) <= costOf(problem, best) + 1e-9;
  return same && length(found) < length(best) - 1e-6 ? found : best;
}
