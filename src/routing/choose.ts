import type { Candidate } from './candidates.js';
import { tally } from './cost.js';
import { orderAllows } from './inlet-order.js';
import { visitPair } from './limits.js';
import type { RouteProblem } from './problem.js';

/** One candidate for every tube, in the order of the problem's runners. */
export interface Choice {
  readonly candidates: readonly Candidate[];
  readonly cost: number;
  /** Sum of all shortfalls, mm. */
  readonly short: number;
}

export interface PairCost {
  readonly cost: number;
  readonly short: number;
}

const NOTHING: PairCost = { cost: 0, short: 0 };

/** Cost and shortfalls of the gaps between two candidates; nothing between two routes given by hand, which stand as they are. */
export function pairTally(problem: RouteProblem, a: Candidate, b: Candidate): PairCost {
  if (!a.trial && !b.trial) return NOTHING;
  const sum = tally(problem);
  visitPair(problem, a.runner, a.shape.chain, b.runner, b.shape.chain, sum.visit);
  return { cost: sum.cost, short: sum.short };
}

/** Partial choices kept at each tube, and how many of them may hold the same inlets: so that late tubes find inlets free. */
const BEAM = 72;
const ALIKE = 18;

interface Partial {
  readonly picked: readonly Candidate[];
  readonly cost: number;
  readonly short: number;
}

/**
 * Cheap choices of one candidate per tube that meet the inlets in an allowed order, best first, no two with the same inlets and
 * numbers of bends. A beam search: tube by tube, the best partial choices are kept. Its work grows with the number of tubes, never
 * with the number of orders.
 */
export function choose(problem: RouteProblem, options: readonly (readonly Candidate[])[], most: number): Choice[] {
  const pairCost = pairTable(problem);
  const order = options.map((_, i) => i).sort((a, b) => options[a]!.length - options[b]!.length || a - b);
  let beam: Partial[] = [{ picked: [], cost: 0, short: 0 }];
  for (const runner of order) {
    const next: Partial[] = [];
    for (const partial of beam) {
      for (const c of options[runner]!) {
        if (!allows(problem, partial.picked, c)) continue;
        let { cost, short } = partial;
        cost += c.cost;
        short += c.short;
        for (const p of partial.picked) {
          const pair = pairCost(p, c);
          cost += pair.cost;
          short += pair.short;
        }
        next.push({ picked: [...partial.picked, c], cost, short });
      }
    }
    next.sort((a, b) => a.cost - b.cost);
    beam = spread(next, BEAM, ALIKE, (p) => inletKey(problem, p.picked));
  }
  return spread(beam, most, 1, (p) => topologyKey(p.picked)).map(({ picked, cost, short }) => ({
    candidates: problem.runners.map((_, i) => picked.find((c) => c.runner === i)!),
    cost,
    short,
  }));
}

/** The first `most` of a sorted list, at most `alike` of any one key. */
function spread<T>(sorted: readonly T[], most: number, alike: number, keyOf: (item: T) => string): T[] {
  const seen = new Map<string, number>();
  const kept: T[] = [];
  for (const item of sorted) {
    if (kept.length >= most) break;
    const key = keyOf(item);
    const n = seen.get(key) ?? 0;
    if (n >= alike) continue;
    seen.set(key, n + 1);
    kept.push(item);
  }
  return kept;
}

/** Which inlets are taken, whoever holds them. */
const inletKey = (problem: RouteProblem, picked: readonly Candidate[]): string =>
  picked
    .map((c) => `${problem.runners[c.runner]!.collector}:${c.inlet}`)
    .sort()
    .join();

/** Who holds which inlet with how many bends. */
export const topologyKey = (picked: readonly Candidate[]): string =>
  picked
    .map((c) => `${c.runner}>${c.inlet}/${c.polygon.clr.length}`)
    .sort()
    .join();

/** True when some allowed order of the collector has these candidates at their inlets. */
function allows(problem: RouteProblem, picked: readonly Candidate[], next: Candidate): boolean {
  const { collector } = problem.runners[next.runner]!;
  const mates = picked.filter((p) => problem.runners[p.runner]!.collector === collector);
  const places = [...mates, next].map((c) => ({ key: problem.runners[c.runner]!.key, inlet: c.inlet }));
  return orderAllows(problem.collectors[collector]!.allowed, places);
}

/** Pair costs, measured once. */
function pairTable(problem: RouteProblem): (a: Candidate, b: Candidate) => PairCost {
  const known = new Map<Candidate, Map<Candidate, PairCost>>();
  return (a, b) => {
    let row = known.get(a);
    if (!row) {
      row = new Map();
      known.set(a, row);
    }
    let t = row.get(b);
    if (!t) {
      t = pairTally(problem, a, b);
      row.set(b, t);
    }
    return t;
  };
}
