import { add, type Master, modelOf, roundedUp, slack, sum } from './master.js';
import type { OpenProblem } from './nesting-problem.js';
import { bestByModel } from './pricing-model.js';
import { searchPatterns } from './search-patterns.js';
import type { Solver } from './solver.js';
import { bestOnStick } from './stick-pricing.js';

/** Limits of the work, all counted. */
const MOST_ROUNDS = 400;
const PRICING_NODES = 5_000;
const CLOSING_NODES = 400_000;
const MOST_CLOSING_COLUMNS = 8_000;

/** A reduced cost counts from here on. */
const GAIN = 1e-7;

interface Duals {
  /** By class, and by item, the latter never above 0. */
  readonly worths: readonly number[];
  readonly supply: readonly number[];
}

/** Adds patterns until none lowers the linear model's cost, or its bound meets `goal`; its value is the bound. No duals where the bound is no more than a guess from what was tried. */
export function generate(
  master: Master,
  goal: number,
  solver: Solver,
): { readonly bound: number; readonly duals: Duals | null } {
  const { problem } = master;
  let bound = 0;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const solution = solver(modelOf(master, false));
    if (solution === null) break;
    const duals = dualsOf(problem, solution.duals);
    const prices = problem.items.map((_, item) => price(problem, item, duals, solver));
    const proven = prices.every((p) => p.proven);
    let sure = 0;
    if (proven) {
      sure = sureBound(
        problem,
        duals,
        prices.map((p) => p.worth),
      );
      bound = Math.max(bound, sure);
      if (goal - roundedUp(bound, master.step) <= slack(master.step)) return { bound, duals: null };
      if (prices.every((p) => p.patterns.length === 0)) return { bound: sure, duals };
    }
    const fresh = prices.flatMap((p) => p.patterns).filter((p) => add(master, p));
    if (fresh.length === 0) return proven ? { bound: sure, duals } : { bound, duals: null };
  }
  return { bound, duals: null };
}

function dualsOf(problem: OpenProblem, rows: readonly number[]): Duals {
  const classes = problem.classes.length;
  let next = classes;
  return {
    worths: rows.slice(0, classes).map((d) => Math.max(0, d)),
    supply: problem.items.map((i) => (i.available === null ? 0 : Math.min(0, rows[next++] ?? 0))),
  };
}

/** Patterns of an item that are worth more than they cost, and the most any of its patterns is worth. */
function price(problem: OpenProblem, item: number, { worths, supply }: Duals, solver: Solver) {
  const floor = problem.costs[item]! - supply[item]! + GAIN;
  const search = searchPatterns(problem, item, worths, 'best', floor, PRICING_NODES);
  const worth = search.found.at(-1)?.worth ?? floor;
  const patterns = search.found.slice(-5).map((f) => f.pattern);
  if (search.complete) return { patterns, worth, proven: true };
  if (problem.items[item]!.bend === null) {
    const stick = bestOnStick(problem, item, worths);
    const own = stick.pattern.cuts.reduce((total, c) => total + worths[c.piece]!, 0);
    return { patterns: own > floor ? [...patterns, stick.pattern] : patterns, worth: stick.worth, proven: true };
  }
  const model = bestByModel(problem, item, worths, solver);
  if (model === null) return { patterns, worth, proven: false };
  return {
    patterns: model.worth > floor ? [...patterns, model.pattern] : patterns,
    worth: Math.max(worth, model.worth),
    proven: model.proven,
  };
}

/** A bound that holds whatever the duals miss: where a pattern is worth more than it costs, all worths are scaled down (Farley 1990), or the supply of the item pays. */
function sureBound(problem: OpenProblem, { worths, supply }: Duals, most: readonly number[]): number {
  const over = problem.items.map((i, k) => (i.available === null && most[k]! > 0 ? problem.costs[k]! / most[k]! : 1));
  const scale = Math.min(1, ...over);
  const demand = sum(problem.classes.map((c, k) => c.demand * worths[k]! * scale));
  const paid = problem.items.map((i, k) =>
    i.available === null ? 0 : i.available * Math.min(supply[k]! * scale, problem.costs[k]! - most[k]! * scale, 0),
  );
  return demand + sum(paid);
}

/** Adds every pattern whose reduced cost is at most `gap`: no other can be part of a better nesting. False when there are too many. */
export function addAllWorthwhile(master: Master, { worths, supply }: Duals, gap: number): boolean {
  const { problem } = master;
  let count = 0;
  for (let item = 0; item < problem.items.length; item++) {
    const floor = problem.costs[item]! - supply[item]! - gap - GAIN;
    const search = searchPatterns(problem, item, worths, 'all', floor, CLOSING_NODES);
    count += search.found.length;
    if (!search.complete || count > MOST_CLOSING_COLUMNS) return false;
    for (const { pattern } of search.found) add(master, pattern);
  }
  return true;
}
