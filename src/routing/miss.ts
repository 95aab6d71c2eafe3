import type { Choice } from './choose.js';
import { type LimitKind, visitOwn, visitPair } from './limits.js';
import { tubesInWords } from './place-words.js';
import type { RouteProblem } from './problem.js';
import type { GoOn } from './search.js';
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

/** The limits that the nearest set of routes breaks, and the tubes whose shortest route is already longer than the target. */
export function explain(problem: RouteProblem, nearest: Choice | null, goOn: GoOn): Miss {
  const clashes = problem.collectors.filter((c) => c.allowed.orders?.length === 0);
  if (clashes.length > 0) {
    const meet = (name: string): string => `routes given by hand meet at one inlet of ${name}`;
    return { broken: clashes.map((c) => ({ kind: 'order', place: meet(c.name), value: 1, limit: 0 })) };
  }
  const tooShort = problem.runners.flatMap((_, i) => (goOn() ? lengthMiss(problem, i) : []));
  const broken = nearest ? brokenLimits(problem, nearest) : [];
  broken.sort((a, b) => b.limit - b.value - (a.limit - a.value));
  return { broken: [...tooShort, ...broken] };
}

function lengthMiss(problem: RouteProblem, runner: number): BrokenLimit[] {
  const { given, name, target } = problem.runners[runner]!;
  if (given) return [];
  const shortest = shortestRoute(problem, runner);
  return shortest <= target ? [] : [{ kind: 'length', place: name, value: target, limit: shortest }];
}

const PART: Partial<Record<LimitKind, string>> = { straight: 'straight', angle: 'bend', step: 'step' };

function brokenLimits(problem: RouteProblem, { candidates }: Choice): BrokenLimit[] {
  const broken: BrokenLimit[] = [];
  const visit = (kind: LimitKind, a: number, b: number, what: string | number | null, value: number, limit: number) => {
    if (limit - value <= 1e-9) return;
    const tubes = tubesInWords([a, b].filter((i) => i >= 0).map((i) => problem.runners[i]!.name));
    const place =
      typeof what === 'string'
        ? `${tubes} and ${what}`
        : what === null
          ? `${tubes}${kind === 'run-in' ? ' before the inlets' : ''}`
          : `${tubes}, ${PART[kind]} ${what}`;
    broken.push({ kind, place, value, limit });
  };
  candidates.forEach((c, i) => {
    if (c.trial) visitOwn(problem, c.runner, c.shape, c.polygon.clr, visit);
    for (const o of candidates.slice(i + 1)) {
      if (c.trial || o.trial) visitPair(problem, c.runner, c.shape.chain, o.runner, o.shape.chain, visit);
    }
  });
  return broken;
}
