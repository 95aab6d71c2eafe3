import type { Shape } from './chain.js';
import type { LimitKind, Visit } from './limits.js';
import { maxAngle, widest } from './limits.js';
import type { RouteProblem, Runner } from './problem.js';

/** Cost of breaking a limit, by mm and by a tenth of mm squared: far above all that makes a route pretty. */
const BROKEN = 40;

/** Number of bends to be cut: two halves of a U-bend are one. */
function bendCount(shape: Shape): number {
  let count = shape.angles.length;
  for (const j of shape.joined) count -= j;
  return count;
}

/** Cost of the number of bends. */
export const bendCost = (problem: RouteProblem, shape: Shape): number => problem.weights.bend * bendCount(shape);

/** Cost of the total angle. */
export const turningCost = (problem: RouteProblem, shape: Shape): number =>
  problem.weights.turning * shape.angles.reduce((a, b) => a + b, 0);

/** Cost of small radii: an angle counts in full at a CLR of one OD. */
export function tightnessCost(problem: RouteProblem, runner: Runner, shape: Shape, clr: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < clr.length; i++) sum += shape.angles[i]! * ((2 * widest(runner)) / clr[i]!);
  return problem.weights.tightness * sum;
}

/** Cost of stock begun and not used up: for every radius the part of its last bend that is left over. */
export function scrapCost(problem: RouteProblem, runner: Runner, shape: Shape, clr: readonly number[]): number {
  let scrap = 0;
  for (let i = 0; i < clr.length; i++) {
    if (clr.indexOf(clr[i]!) < i) continue;
    const whole = maxAngle(runner.sections[shape.sectionOf[i]!]!, clr[i]!);
    if (whole <= 0) continue;
    let used = 0;
    for (let j = i; j < clr.length; j++) if (clr[j] === clr[i]) used += shape.angles[j]! / whole;
    scrap += Math.ceil(used - 1e-9) - used;
  }
  return problem.weights.scrap * scrap;
}

/** A bend below this angle, rad, cannot be cut and welded with sense. Common practice, no source. */
export const LEAST_BEND = (3 * Math.PI) / 180;

/** Cost of a bend of next to no angle: more than leaving it out by any other way. */
const SLIVER = 150;

/** Cost of bends too small to make. */
export function sliverCost(shape: Shape): number {
  let sum = 0;
  for (let i = 0; i < shape.angles.length; i++) {
    if (shape.joined[i] || shape.joined[i + 1]) continue;
    sum += Math.max(0, 1 - shape.angles[i]! / LEAST_BEND);
  }
  return SLIVER * sum;
}

/** Cost of what a route is by itself, limits apart. */
export const shapeCost = (problem: RouteProblem, runner: Runner, shape: Shape, clr: readonly number[]): number =>
  bendCost(problem, shape) +
  turningCost(problem, shape) +
  tightnessCost(problem, runner, shape, clr) +
  scrapCost(problem, runner, shape, clr) +
  sliverCost(shape);

/** Cost of a gap near its limit; falls to nothing at three times the limit. */
export function closenessCost(problem: RouteProblem, gap: number, limit: number): number {
  const ease = 1 - (gap - limit) / (2 * Math.max(limit, 1));
  return ease > 0 ? problem.weights.closeness * Math.min(ease, 1) ** 2 : 0;
}

/** Cost of breaking a limit by some mm. */
export const brokenCost = (short: number): number => (short > 0 ? BROKEN * (short + 0.1 * short * short) : 0);

/** Adds up what limits cost: broken ones much, close gaps a little. */
export interface Tally {
  /** Total cost of limits. */
  cost: number;
  /** Sum of shortfalls, mm. */
  short: number;
  readonly visit: Visit;
}

const isGap = (kind: LimitKind): boolean => kind === 'kept-out' || kind === 'gap';

export function tally(problem: RouteProblem): Tally {
  const t: Tally = {
    cost: 0,
    short: 0,
    visit: (kind, _a, _b, _what, value, limit) => {
      const short = limit - value;
      if (short > 1e-9) {
        t.short += short;
        t.cost += brokenCost(short);
      }
      if (isGap(kind)) t.cost += closenessCost(problem, value, limit);
    },
  };
  return t;
}
