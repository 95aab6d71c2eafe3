import type { Shape } from './chain.js';
import type { LimitKind, Visit } from './limits.js';
import type { RouteProblem } from './problem.js';

/** What makes one route better than another, in equivalents of a millimetre. Starting points, chosen by looking at the routes. */
export const WEIGHTS = {
  /** Each bend: a cut and a weld more. */
  bend: 20,
  /** Each radian of bending. */
  turning: 12,
  /** Each radian at a CLR of one OD; less for larger radii. */
  tightness: 8,
  /** A gap at its limit; falls to nothing at three times the limit. */
  closeness: 30,
  /** Breaking a limit, by mm and by mm squared. */
  broken: 40,
} as const;

/** Cost of the number of bends. */
export const bendCost = (shape: Shape): number => WEIGHTS.bend * shape.angles.length;

/** Cost of the total angle. */
export const turningCost = (shape: Shape): number => WEIGHTS.turning * shape.angles.reduce((a, b) => a + b, 0);

/** Cost of small radii. */
export function tightnessCost(problem: RouteProblem, shape: Shape, clr: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < clr.length; i++) sum += shape.angles[i]! * ((2 * problem.radius) / clr[i]!);
  return WEIGHTS.tightness * sum;
}

/** Cost of what a route is by itself, limits apart. */
export const shapeCost = (problem: RouteProblem, shape: Shape, clr: readonly number[]): number =>
  bendCost(shape) + turningCost(shape) + tightnessCost(problem, shape, clr);

/** Cost of a gap near its limit. */
export function closenessCost(gap: number, limit: number): number {
  const ease = 1 - (gap - limit) / (2 * Math.max(limit, 1));
  return ease > 0 ? WEIGHTS.closeness * Math.min(ease, 1) ** 2 : 0;
}

/** Cost of breaking a limit by some mm. */
export const brokenCost = (short: number): number => (short > 0 ? WEIGHTS.broken * (short + 0.1 * short * short) : 0);

/** Adds up what limits cost: broken ones much, close gaps a little. */
export interface Tally {
  /** Total cost of limits. */
  cost: number;
  /** Sum of shortfalls, mm. */
  short: number;
  readonly visit: Visit;
}

const WITH_CLOSENESS: ReadonlySet<LimitKind> = new Set(['kept-out', 'gap']);

export function tally(): Tally {
  const t: Tally = {
    cost: 0,
    short: 0,
    visit: (kind, _place, value, limit) => {
      const short = limit - value;
      if (short > 1e-9) {
        t.short += short;
        t.cost += brokenCost(short);
      }
      if (WITH_CLOSENESS.has(kind)) t.cost += closenessCost(value, limit);
    },
  };
  return t;
}
