import { polygonLength } from '../geometry/path/control-polygon.js';
import { type BrokenLimit, brokenLimits } from './broken-limits.js';
import type { Choice } from './choose.js';
import { conflictOf } from './conflict.js';
import { type Visit, visitOwn, visitPair } from './limits.js';
import type { RouteProblem } from './problem.js';
import { easeOneByOne, type Relaxation } from './relaxations.js';
import { shortestRoute } from './shortest.js';

export type { BrokenLimit, Relaxation };

/** Why no set of routes holds. */
export interface Miss {
  /** The limits that bind in the nearest miss: lengths that are too short first, then the worst first. */
  readonly broken: readonly BrokenLimit[];
  /** A smallest set of limits that no set of routes keeps, as far as the search can tell; empty when it cannot. */
  readonly conflict: readonly string[];
  /** Changes each of which alone lets a set of routes keep all the rest: such a set was found. */
  readonly relaxations: readonly Relaxation[];
  /** The tubes of the nearest miss; not a solution. */
  readonly nearest: readonly NearestTube[];
  /** True when time ended the search or this explanation: more time may find more. */
  readonly timedOut: boolean;
}

/** A tube of the nearest miss. */
export interface NearestTube {
  /** The tube, as reports name it. */
  readonly name: string;
  /** Inlet number, from 1. */
  readonly inlet: number;
  /** Number of bends. */
  readonly bends: number;
  /** mm. */
  readonly length: number;
  /** Length it should have, mm. */
  readonly target: number;
  /** Least gap the search measures to other tubes and to kept-out space, mm; null when there is none near. */
  readonly gap: number | null;
}

/** What looking for the reasons of a failure came to: the reasons, or after all a set that keeps every limit. */
export type Explained = { readonly found: Choice; readonly miss: null } | { readonly found: null; readonly miss: Miss };

/** False once a share of the time (all of it when not named) is up. */
export type Clock = (share?: number) => boolean;

/** Part of the time by which the conflict must be known: the rest is for what would mend it. */
const CONFLICT = 0.7;

/** Says why a problem has no set of routes, from the nearest miss. `timedOut` is true when time ended the search for one. */
export function explain(problem: RouteProblem, nearest: Choice | null, goOn: Clock, timedOut: boolean): Explained {
  const miss = (known: Partial<Miss>): Explained => ({
    found: null,
    miss: { broken: [], conflict: [], relaxations: [], nearest: [], timedOut: timedOut || !goOn(), ...known },
  });
  const clashes = problem.collectors.filter((c) => c.allowed.orders?.length === 0).map((c) => c.name);
  if (clashes.length > 0) {
    const places = clashes.map((name) => `routes given by hand meet at one inlet of ${name}`);
    const broken = places.map(
      (place) => ({ kind: 'order', place, value: 1, limit: 0, family: 'order', tubes: [] }) as const,
    );
    return miss({ broken, conflict: places.map((p) => `runners.routes: ${p}`) });
  }
  const shortest = problem.runners.map((r, i) => (goOn() && !r.given ? shortestRoute(problem, i) : 0));
  const tooShort = problem.runners.flatMap((_, i) => lengthMiss(problem, i, shortest[i]!));
  const broken = [...tooShort, ...(nearest ? brokenLimits(problem, nearest) : [])];
  const conflict = conflictOf(problem, nearest, shortest, () => goOn(CONFLICT));
  const { relaxations, found } = easeOneByOne(problem, nearest, conflict, shortest, goOn);
  if (found) return { found, miss: null };
  const tubes = nearest ? nearestTubes(problem, nearest) : [];
  return miss({ broken, conflict: (conflict ?? []).map((f) => f.words), relaxations, nearest: tubes });
}

function lengthMiss(problem: RouteProblem, runner: number, shortest: number): BrokenLimit[] {
  const { name, target } = problem.runners[runner]!;
  if (shortest <= target) return [];
  return [{ kind: 'length', place: name, value: target, limit: shortest, family: 'length', tubes: [runner] }];
}

/** Gaps of so many clearances are not told. */
const NEAR = 3;

function nearestTubes(problem: RouteProblem, { candidates }: Choice): NearestTube[] {
  return candidates.map((c) => {
    const { name, target } = problem.runners[c.runner]!;
    const far = NEAR * problem.clearance;
    let gap = far;
    const visit: Visit = (kind, _a, _b, _what, value) => {
      if (kind === 'gap' || kind === 'approach' || kind === 'kept-out') gap = Math.min(gap, value);
    };
    visitOwn(problem, c.runner, c.shape, c.polygon.clr, visit);
    for (const o of candidates) {
      if (o !== c) visitPair(problem, c.runner, c.shape.chain, o.runner, o.shape.chain, visit);
    }
    return {
      name,
      target,
      inlet: c.inlet,
      bends: c.polygon.clr.length,
      length: polygonLength(c.polygon),
      gap: gap < far ? gap : null,
    };
  });
}
