import type { Choice } from './choose.js';
import { type LimitKind, pairKey, visitOwn, visitPair } from './limits.js';
import { tubesInWords } from './place-words.js';
import type { RouteProblem } from './problem.js';
import { angleFamily, isSecondary } from './relax.js';

/** A limit that a set of routes breaks. */
export interface BrokenLimit {
  /** Which limit. */
  readonly kind: LimitKind;
  /** Where, as reports name it. */
  readonly place: string;
  /** What was found and what is allowed, mm; for an angle the arc it makes at its CLR, negative because less is allowed. */
  readonly value: number;
  /** What is allowed, mm. */
  readonly limit: number;
  /** The limits of the plan it belongs to, by `Relaxable.key`. */
  readonly family: string;
  /** Places in the problem's runners of the one or two tubes. */
  readonly tubes: readonly number[];
}

const PART: Partial<Record<LimitKind, string>> = { straight: 'straight', angle: 'bend', step: 'step' };
const WHERE: Partial<Record<LimitKind, string>> = { 'run-in': ' before the inlets', approach: ' near the inlets' };

/** Every limit a set of routes breaks, worst first. Routes given by hand owe none to themselves nor to each other. */
export function brokenLimits(problem: RouteProblem, { candidates }: Choice): BrokenLimit[] {
  const broken: BrokenLimit[] = [];
  candidates.forEach((c, i) => {
    const visit = (
      kind: LimitKind,
      a: number,
      b: number,
      what: string | number | null,
      value: number,
      limit: number,
    ) => {
      if (limit - value <= 1e-9) return;
      const tubes = [a, b].filter((t) => t >= 0);
      const words = tubesInWords(tubes.map((t) => problem.runners[t]!.name));
      const place =
        typeof what === 'string'
          ? `${words} and ${what}`
          : what === null
            ? `${words}${WHERE[kind] ?? ''}`
            : `${words}, ${PART[kind]} ${what}`;
      broken.push({ kind, place, value, limit, tubes, family: familyOf(kind, a, b, what) });
    };
    const familyOf = (kind: LimitKind, a: number, b: number, what: string | number | null): string => {
      const runner = problem.runners[a]!;
      switch (kind) {
        case 'straight':
          if (what === c.shape.straights.length) return 'straight inlet';
          return what === 1 && !isSecondary(runner) ? 'straight port' : 'straight';
        case 'angle': {
          const bend = Number(what) - 1;
          return angleFamily(isSecondary(runner), c.shape.sectionOf[bend]!, c.polygon.clr[bend]!);
        }
        case 'step':
          return `step ${what}`;
        case 'kept-out':
          return `kept-out ${what}`;
        case 'self':
          return 'self';
        default:
          return `gap ${pairKey(runner, problem.runners[b]!)}`;
      }
    };
    if (c.trial) visitOwn(problem, c.runner, c.shape, c.polygon.clr, visit);
    for (const o of candidates.slice(i + 1)) {
      if (c.trial || o.trial) visitPair(problem, c.runner, c.shape.chain, o.runner, o.shape.chain, visit);
    }
  });
  return broken.sort((a, b) => b.limit - b.value - (a.limit - a.value));
}
