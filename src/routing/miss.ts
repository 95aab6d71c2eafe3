import type { Candidate } from './candidates.js';
import type { Choice } from './choose.js';
import { type LimitKind, visitOwn, visitPair } from './limits.js';
import type { Joining, RouteProblem, Runner } from './problem.js';
import { shortestRoute } from './shortest.js';

/** A limit that the nearest miss breaks. */
export interface BrokenLimit {
  readonly kind: LimitKind;
  readonly place: string;
  /** What was found and what is allowed, mm; for an angle the arc it makes at its CLR, negative because less is allowed. */
  readonly value: number;
  readonly limit: number;
}

/** Why no set of routes holds: the limits that bind, worst first. */
export interface Miss {
  readonly broken: readonly BrokenLimit[];
}

/** The limits that the nearest set of routes breaks, and the primaries whose shortest route is already longer than the target. */
export function missOf(problem: RouteProblem, nearest: Choice | null): Miss {
  const clashes = problem.collectors.filter((c) => c.orders.length === 0).map(orderMiss);
  if (clashes.length > 0) return { broken: clashes };
  const tooShort = problem.runners.filter((r) => !r.given).flatMap((r) => lengthMiss(problem, r));
  const broken = nearest ? brokenLimits(problem, nearest.candidates) : [];
  broken.sort((a, b) => b.limit - b.value - (a.limit - a.value));
  return { broken: [...tooShort, ...broken] };
}

const orderMiss = (c: Joining): BrokenLimit => ({
  kind: 'order',
  place: `routes given by hand meet at one inlet of ${c.name}`,
  value: 1,
  limit: 0,
});

function lengthMiss(problem: RouteProblem, runner: Runner): BrokenLimit[] {
  const orders = problem.collectors[runner.collector]!.orders;
  const inlets = [...new Set(orders.map((o) => o.indexOf(runner.cylinder) + 1))];
  const shortest = shortestRoute(problem, runner, inlets);
  if (shortest <= problem.target) return [];
  return [{ kind: 'length', place: `cylinder ${runner.cylinder}`, value: problem.target, limit: shortest }];
}

function brokenLimits(problem: RouteProblem, candidates: readonly Candidate[]): BrokenLimit[] {
  const broken: BrokenLimit[] = [];
  const visit = (kind: LimitKind, place: string, value: number, limit: number): void => {
    if (limit - value > 1e-9) broken.push({ kind, place, value, limit });
  };
  candidates.forEach((c, i) => {
    if (c.trial) visitOwn(problem, c.runner, c.shape, c.polygon.clr, visit);
    for (const o of candidates.slice(i + 1)) {
      if (c.trial || o.trial) visitPair(problem, c.runner, c.shape.chain, o.runner, o.shape.chain, visit);
    }
  });
  return broken;
}
