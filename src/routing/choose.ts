import type { Candidate } from './candidates.js';
import { tally } from './cost.js';
import { visitPair } from './limits.js';
import type { RouteProblem } from './problem.js';

/** One candidate for every primary, in the order of the problem's runners. */
export interface Choice {
  readonly candidates: readonly Candidate[];
  readonly cost: number;
  /** Sum of all shortfalls, mm. */
  readonly short: number;
}

/** Cost and shortfalls of the gaps between two candidates; nothing between two routes given by hand, which stand as they are. */
export function pairTally(problem: RouteProblem, a: Candidate, b: Candidate): PairCost {
  if (!a.trial && !b.trial) return { cost: 0, short: 0 };
  const sum = tally();
  visitPair(problem, a.runner, a.shape.chain, b.runner, b.shape.chain, sum.visit);
  return { cost: sum.cost, short: sum.short };
}

/** Bounds on the search: enough for eight primaries, and never long. */
const MOST_NODES = 60_000;

/**
 * The cheapest choices of one candidate per primary that meet the inlets in an allowed order, best first, of different orders.
 * Depth-first with bounds; the number of nodes is limited, so that a hard case ends too.
 */
export function choose(problem: RouteProblem, options: readonly (readonly Candidate[])[], most: number): Choice[] {
  const pairCost = pairTable(problem);
  const order = options.map((_, i) => i).sort((a, b) => options[a]!.length - options[b]!.length);
  const sorted = options.map((list) => [...list].sort((a, b) => a.cost - b.cost));
  const rest = new Array<number>(order.length + 1).fill(0);
  for (let i = order.length - 1; i >= 0; i--) rest[i] = rest[i + 1]! + (sorted[order[i]!]![0]?.cost ?? 0);
  const best = new Map<string, Choice>();
  const picked: Candidate[] = [];
  let nodes = 0;

  const worstKept = (): number => {
    if (best.size < most) return Number.POSITIVE_INFINITY;
    return Math.max(...[...best.values()].map((c) => c.cost));
  };
  const keep = (cost: number, short: number): void => {
    const byRunner = problem.runners.map((r) => picked.find((c) => c.runner === r)!);
    const key = byRunner.map((c) => c.inlet).join();
    const known = best.get(key);
    if (known && known.cost <= cost) return;
    best.set(key, { candidates: byRunner, cost, short });
    if (best.size <= most) return;
    const worst = [...best.entries()].reduce((a, b) => (b[1].cost > a[1].cost ? b : a));
    best.delete(worst[0]);
  };
  const descend = (depth: number, cost: number, short: number): void => {
    if (depth === order.length) {
      keep(cost, short);
      return;
    }
    for (const c of sorted[order[depth]!]!) {
      if (nodes++ > MOST_NODES && best.size > 0) return;
      if (cost + c.cost + rest[depth + 1]! >= worstKept()) break;
      if (!orderAllows(problem, picked, c)) continue;
      let sum = cost + c.cost;
      let missing = short + c.short;
      for (const p of picked) {
        const t = pairCost(p, c);
        sum += t.cost;
        missing += t.short;
      }
      if (sum + rest[depth + 1]! >= worstKept()) continue;
      picked.push(c);
      descend(depth + 1, sum, missing);
      picked.pop();
    }
  };
  descend(0, 0, 0);
  return [...best.values()].sort((a, b) => a.cost - b.cost);
}

/** True when some allowed order of the collector has these candidates at their inlets. */
function orderAllows(problem: RouteProblem, picked: readonly Candidate[], next: Candidate): boolean {
  const mates = [...picked.filter((p) => p.runner.collector === next.runner.collector), next];
  return problem.collectors[next.runner.collector]!.orders.some((order) =>
    mates.every((c) => order[c.inlet - 1] === c.runner.cylinder),
  );
}

interface PairCost {
  readonly cost: number;
  readonly short: number;
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
