import { LENGTH_TOLERANCE } from '../../geometry/tolerance.js';
import type { StockBend } from '../../params/plan.js';
import { cutFrom } from './bent-stock.js';

/** Straight tube before, between or after the bends: running lengths of its ends, mm, and of the steps on it, where the tube grows. */
export interface StraightRun {
  readonly from: number;
  readonly to: number;
  /** In order; from `from` to `to`, both included. */
  readonly steps: readonly number[];
}

/** A bend of a tube, mm and rad, and the bent stock of its own size. */
export interface TubeBend {
  readonly clr: number;
  readonly angle: number;
  readonly stock: readonly StockBend[];
}

/** What is done with the straight between two bends: the legs it leaves on them and the joints on it. */
export interface StraightChoice {
  /** Leg left on the bend before and on the bend after, mm. */
  readonly legBefore: number;
  readonly legAfter: number;
  /** Running lengths, mm, steps among them; in order. */
  readonly joints: readonly number[];
  /** Joints that stand at no tangent point and no step. */
  readonly loose: number;
  /** Straight that becomes pieces of its own, mm. */
  readonly stick: number;
}

/** Two tie-breakers this close, mm, are the same. */
const SAME_STICK = 1e-6;

/**
 * Running lengths of the joints of a tube, mm: as few as the stock allows. A straight goes wholly to the leg of the bend before it or
 * after it, is split between both, or is a piece of its own; every bend keeps only legs that some one bent stock of its radius
 * gives it (`cutFrom`). Of ways with as few joints the one with most joints at tangent points is taken, then the one that wants the least
 * straight stock, then the one that leaves straights on the bend before, from where the tube starts. A bend that no stock makes
 * keeps any leg up to the longest of its radius: the checks complain of it. Exact, by a dynamic programme along the
 * bends. `straights` has one entry more than `bends`.
 */
export function jointPlaces(straights: readonly StraightRun[], bends: readonly TubeBend[]): number[] {
  type Way = { readonly choice: StraightChoice; readonly cost: Cost; readonly before: Way | null };
  let ways: Way[] = choicesOf(straights[0]!, null, bends[0] ?? null).map((choice) => ({
    choice,
    cost: costOf(choice),
    before: null,
  }));
  bends.forEach((bend, i) => {
    ways = choicesOf(straights[i + 1]!, bend, bends[i + 1] ?? null).flatMap((choice): Way[] => {
      let best: Way | null = null;
      for (const way of ways) {
        if (!makes(bend, way.choice.legAfter, choice.legBefore)) continue;
        const cost = sum(way.cost, costOf(choice));
        if (best === null || less(cost, best.cost)) best = { choice, cost, before: way };
      }
      return best === null ? [] : [best];
    });
  });
  let best = ways.reduce((a, b) => (less(b.cost, a.cost) ? b : a));
  const chosen = [best.choice];
  while (best.before !== null) {
    best = best.before;
    chosen.unshift(best.choice);
  }
  return chosen.flatMap((c) => c.joints);
}

/** Joints, those at no tangent point, straight stock in mm. */
type Cost = readonly [joints: number, loose: number, stick: number];

const costOf = ({ joints, loose, stick }: StraightChoice): Cost => [joints.length, loose, stick];

const sum = (a: Cost, b: Cost): Cost => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];

function less(a: Cost, b: Cost): boolean {
  if (a[0] !== b[0]) return a[0] < b[0];
  return a[1] !== b[1] ? a[1] < b[1] : a[2] < b[2] - SAME_STICK;
}

/** True when a bend with these legs can be cut from one piece of its stock. */
function makes(bend: TubeBend, legBefore: number, legAfter: number): boolean {
  const { clr, angle, stock } = bend;
  if (stock.some((s) => cutFrom({ clr, angle, legBefore, legAfter }, s))) return true;
  if (stock.some((s) => cutFrom({ clr, angle, legBefore: 0, legAfter: 0 }, s))) return false;
  const longest = Math.max(0, ...legsOf(bend));
  return Math.max(legBefore, legAfter) <= longest + LENGTH_TOLERANCE;
}

/** Every leg of the stock of a bend's radius, mm. */
const legsOf = ({ clr, stock }: TubeBend): number[] =>
  stock.filter((s) => Math.abs(s.clr - clr) < 1e-6).flatMap((s) => [s.leg, s.shortLeg]);

/**
 * What can be done with a straight. Legs of stock are the only lengths a split needs to try: with any other split the bend before
 * could take more.
 */
function choicesOf(straight: StraightRun, before: TubeBend | null, after: TubeBend | null): StraightChoice[] {
  const { from, to, steps } = straight;
  if (steps.length === 0) return unstepped(from, to, before, after);
  const firsts = unstepped(from, steps[0]!, before, null);
  const lasts = unstepped(steps.at(-1)!, to, null, after);
  const between = steps.at(-1)! - steps[0]!;
  return firsts.flatMap((a) =>
    lasts.map((b) => ({
      legBefore: a.legBefore,
      legAfter: b.legAfter,
      joints: [...a.joints, ...steps, ...b.joints],
      loose: a.loose + b.loose,
      stick: a.stick + between + b.stick,
    })),
  );
}

/** What can be done with a straight of one size, ended by a bend, by a step or by the tube's own end (null). */
function unstepped(from: number, to: number, before: TubeBend | null, after: TubeBend | null): StraightChoice[] {
  const length = Math.max(0, to - from);
  const choice = (legBefore: number, legAfter: number, joints: number[], loose = 0, stick = 0): StraightChoice => ({
    legBefore,
    legAfter,
    joints,
    loose,
    stick,
  });
  const own = [...(before ? [from] : []), ...(after ? [to] : [])];
  if (length <= LENGTH_TOLERANCE) return [choice(0, 0, before && after ? [to] : [])];
  const all: StraightChoice[] = [];
  if (before) all.push(choice(length, 0, after ? [to] : []));
  if (after) all.push(choice(0, length, before ? [from] : []));
  if (before && after) {
    const legs = [...new Set(legsOf(before))].filter((l) => l > LENGTH_TOLERANCE && l < length - LENGTH_TOLERANCE);
    all.push(...legs.sort((a, b) => b - a).map((leg) => choice(leg, length - leg, [from + leg], 1)));
  }
  return [...all, choice(0, 0, own, 0, length)];
}
