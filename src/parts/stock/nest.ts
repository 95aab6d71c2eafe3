import { firstFit } from './first-fit.js';
import { costOf, type Nesting, type NestingProblem, type OpenProblem, openProblem } from './nesting-problem.js';
import { countsOf, fits, less, type Pattern, patternKey, type Room } from './pattern.js';
import { bestByModel } from './pricing-model.js';
import { searchPatterns } from './search-patterns.js';
import type { LinearModel, Row, Solver } from './solver.js';
import { bestOnStick } from './stick-pricing.js';

/** The best nesting found and what is proven of it. */
export interface BestNesting extends Nesting {
  readonly value: number;
  /** No nesting that makes as many of the pieces costs less. */
  readonly bound: number;
  readonly optimal: boolean;
  /** What first-fit-decreasing costs, where it makes as many pieces; null where it makes fewer. */
  readonly firstFit: number | null;
}

/** Limits of the work, all counted. */
const MOST_ROUNDS = 400;
const PRICING_NODES = 5_000;
const CLOSING_NODES = 400_000;
const MOST_CLOSING_COLUMNS = 8_000;

/** A reduced cost counts from here on. */
const GAIN = 1e-7;

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

const sum = (of: readonly number[]): number => of.reduce((a, b) => a + b, 0);

/** What a value may lie over a bound and still meet it. */
const slack = (step: number): number => (step > 0 ? step / 2 : 1e-6);

/** The linear model over the patterns found so far. */
interface Master {
  readonly problem: OpenProblem;
  readonly columns: Pattern[];
  readonly keys: Set<string>;
  /** Cost of a piece that is not made: more than all stock together. */
  readonly penalty: number;
  /** Values are whole multiples of this; 0 when they are not. */
  readonly step: number;
}

function masterOf(problem: OpenProblem, start: Nesting): Master {
  const step = stepOf(problem.costs);
  const most = Math.max(...problem.costs) * sum(problem.classes.map((c) => c.demand));
  const penalty = step > 0 ? (Math.floor(most / step) + 1) * step : most + 1;
  const master: Master = { problem, columns: [], keys: new Set(), penalty, step };
  for (const p of start.patterns) add(master, p);
  // a column of its own for every class, so that a first solution exists
  problem.classes.forEach((_, piece) => {
    problem.options.forEach((options, item) => {
      const option = options.find((o) => o.piece === piece);
      if (option !== undefined) add(master, { item, cuts: [option] });
    });
  });
  return master;
}

/** The largest amount of which all costs are whole multiples, in hundredths; 0 when there is none. */
export function stepOf(costs: readonly number[]): number {
  const cents = costs.map((c) => c * 100);
  if (cents.some((c) => Math.abs(c - Math.round(c)) > 1e-6)) return 0;
  const gcd = (a: number, b: number): number => (b === 0 ? a : gcd(b, a % b));
  return cents.map(Math.round).reduce(gcd, 0) / 100;
}

const roundedUp = (bound: number, step: number): number => (step > 0 ? Math.ceil(bound / step - 1e-6) * step : bound);

/** Adds a pattern, filled up with whatever else fits; false when its like is there. */
function add(master: Master, pattern: Pattern): boolean {
  const full = filledUp(master.problem, pattern);
  const key = patternKey(full);
  if (master.keys.has(key)) return false;
  master.keys.add(key);
  master.columns.push(full);
  return true;
}

function filledUp(problem: OpenProblem, pattern: Pattern): Pattern {
  const counts = new Map(countsOf(pattern));
  const cuts = [...pattern.cuts];
  let room: Room = cuts.reduce((r, c) => less(r, c.load), problem.rooms[pattern.item]!);
  for (const option of problem.options[pattern.item]!) {
    while ((counts.get(option.piece) ?? 0) < problem.classes[option.piece]!.demand && fits(option.load, room)) {
      cuts.push(option);
      counts.set(option.piece, (counts.get(option.piece) ?? 0) + 1);
      room = less(room, option.load);
    }
  }
  return { ...pattern, cuts };
}

/** Rows: one per class, then one per item of which there are only so many. Columns: patterns, then a shortage per class where stock can run short. */
function modelOf({ problem, columns, penalty }: Master, whole: boolean): LinearModel {
  const limited = problem.items.flatMap((i, k) => (i.available === null ? [] : [{ k, available: i.available }]));
  const counts = columns.map(countsOf);
  const shortage = limited.length > 0;
  const demand = problem.classes.map(({ demand: limit }, piece): Row => {
    const terms = counts.flatMap((c, i): [number, number][] => (c.has(piece) ? [[i, c.get(piece)!]] : []));
    return { terms: shortage ? [...terms, [columns.length + piece, 1]] : terms, sense: '>=', limit };
  });
  const supply = limited.map(({ k, available }): Row => {
    const terms = columns.flatMap((c, i): [number, number][] => (c.item === k ? [[i, 1]] : []));
    return { terms, sense: '<=', limit: available };
  });
  const costs = columns.map((c) => problem.costs[c.item]!);
  const rows = [...demand, ...supply].filter((r) => r.terms.length > 0);
  return { costs: shortage ? [...costs, ...problem.classes.map(() => penalty)] : costs, rows, whole };
}

interface Duals {
  /** By class, and by item, the latter never above 0. */
  readonly worths: readonly number[];
  readonly supply: readonly number[];
}

/** Adds patterns until none lowers the linear model's cost, or its bound meets `goal`; its value is the bound. No duals where the bound is no more than a guess from what was tried. */
function generate(
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

/** Adds every pattern whose reduced cost is at most `gap`: no other can be part of a better nesting. False when there are too many. */
function addAllWorthwhile(master: Master, { worths, supply }: Duals, gap: number): boolean {
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
