import type { Nesting, OpenProblem } from './nesting-problem.js';
import { countsOf, fits, less, type Pattern, patternKey, type Room } from './pattern.js';
import type { LinearModel, Row } from './solver.js';

export const sum = (of: readonly number[]): number => of.reduce((a, b) => a + b, 0);

/** What a value may lie over a bound and still meet it. */
export const slack = (step: number): number => (step > 0 ? step / 2 : 1e-6);

/** The linear model over the patterns found so far. */
export interface Master {
  readonly problem: OpenProblem;
  readonly columns: Pattern[];
  readonly keys: Set<string>;
  /** Cost of a piece that is not made: more than all stock together. */
  readonly penalty: number;
  /** Values are whole multiples of this; 0 when they are not. */
  readonly step: number;
}

/** The master of a first nesting's patterns; a piece left short costs more than any nesting does. */
export function masterOf(problem: OpenProblem, start: Nesting): Master {
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

/** A bound on the cost, raised to the next multiple of the step that costs come in. */
export const roundedUp = (bound: number, step: number): number =>
  step > 0 ? Math.ceil(bound / step - 1e-6) * step : bound;

/** Adds a pattern, filled up with whatever else fits; false when its like is there. */
export function add(master: Master, pattern: Pattern): boolean {
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
export function modelOf({ problem, columns, penalty }: Master, whole: boolean): LinearModel {
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
