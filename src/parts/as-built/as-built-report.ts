import type { AsBuilt, MeasuredTube } from '../../params/as-built/as-built.js';
import type { Plan } from '../../params/plan.js';
import { type BuiltTube, builtTube, type TubeToMeasure } from './built-tube.js';
import { type CommonLength, commonLength } from './common-length.js';
import { type Deviation, deviationsOf } from './deviation.js';
import { type Mend, mendOf, roomOf } from './mend.js';
import { openStraights } from './open-straights.js';

/** inside: the spread is within the tolerance whatever the measurements are off by; outside: it is not, whatever they are off by. */
export type Verdict = 'inside' | 'outside' | 'cannot tell';

/** A tube as built, with where it differs from its route. */
export interface TubeFound extends BuiltTube {
  /** What moves its end most first. */
  readonly deviations: readonly Deviation[];
}

/** All primaries, or all secondaries, against each other. mm. */
export interface SpreadFound {
  readonly of: 'primaries' | 'secondaries';
  readonly tolerance: number;
  readonly tubes: readonly TubeFound[];
  /** Names of tubes that were not measured. */
  readonly unmeasured: readonly string[];
  /** Longest less shortest, and what that may be off by, plus and minus. */
  readonly spread: number;
  readonly uncertainty: number;
  readonly verdict: Verdict;
  /** What to bring the tubes to; null when nothing is to be done. */
  readonly aim: CommonLength | null;
  readonly mends: readonly Mend[];
}

const SLACK = 1e-9;

/** The true spread of built tubes and what brings it within tolerance. Throws RangeError when points do not make a tube. */
export function asBuiltReport(plan: Plan, tubes: readonly TubeToMeasure[], { tubes: found }: AsBuilt): SpreadFound[] {
  const isPrimary = ({ tube }: TubeToMeasure): boolean => 'cylinder' in tube;
  const groups = [
    { of: 'primaries' as const, tolerance: plan.runners.tolerance, own: tubes.filter(isPrimary) },
    {
      of: 'secondaries' as const,
      tolerance: plan.secondaries?.tolerance ?? 0,
      own: tubes.filter((t) => !isPrimary(t)),
    },
  ];
  return groups.flatMap(({ of, tolerance, own }): SpreadFound[] => {
    const measured = own.flatMap((t) => {
      const m = measurementOf(t, found);
      return m ? [builtTube(t, m)] : [];
    });
    if (measured.length === 0) return [];
    const unmeasured = own.filter((t) => !measurementOf(t, found)).map((t) => t.tube.name);
    return [spreadFound(plan, of, tolerance, measured, unmeasured)];
  });
}

/** The measurement of a tube; null when there is none. */
export const measurementOf = ({ tube }: TubeToMeasure, found: readonly MeasuredTube[]): MeasuredTube | null =>
  found.find((m) => ('cylinder' in tube ? String(m.cylinder) === tube.id : m.from === tube.id)) ?? null;

function spreadFound(
  plan: Plan,
  of: SpreadFound['of'],
  tolerance: number,
  built: readonly BuiltTube[],
  unmeasured: readonly string[],
): SpreadFound {
  const straights = built.map((b) => openStraights(plan, b.tube, b.cuts));
  const lengths = built.map((b) => b.length);
  const spread = Math.max(...lengths) - Math.min(...lengths);
  const uncertainty = spreadUncertainty(built);
  const verdict = verdictOn(spread, uncertainty, tolerance, unmeasured.length === 0);
  const rooms = built.map((b, i) => roomOf(b, straights[i]!).reduce((a, r) => a + r, 0));
  const needed = verdict !== 'inside' && spread > tolerance - 2 * SLACK;
  // aimed inside by what the measurements may be off by, where they are fine enough for that
  const worst = worstPair(built);
  const width = worst < tolerance ? tolerance - worst : tolerance;
  const aim = needed
    ? commonLength(
        built.map((b, i) => ({ length: b.length, room: rooms[i]! })),
        width,
      )
    : null;
  const mends = (aim?.changes ?? []).flatMap((by, i) => (by === 0 ? [] : [mendOf(built[i]!, straights[i]!, by)]));
  const tubes = built.map((b, i) => ({ ...b, deviations: deviationsOf(b, straights[i]!) }));
  return { of, tolerance, tubes, unmeasured, spread, uncertainty, verdict, aim, mends };
}

/** Uncertainties of the longest and the shortest as the root of the sum of their squares; 0 for one tube. JCGM 100:2008 (GUM), 5.1.2 (from memory). */
function spreadUncertainty(built: readonly BuiltTube[]): number {
  if (built.length < 2) return 0;
  const sorted = [...built].sort((a, b) => a.length - b.length);
  return Math.hypot(sorted[0]!.uncertainty, sorted.at(-1)!.uncertainty);
}

/** What the difference of any two tubes may be off by. */
function worstPair(built: readonly BuiltTube[]): number {
  const [a = 0, b = 0] = built.map((t) => t.uncertainty).sort((x, y) => y - x);
  return Math.hypot(a, b);
}

function verdictOn(spread: number, uncertainty: number, tolerance: number, complete: boolean): Verdict {
  if (spread - uncertainty > tolerance + SLACK) return 'outside';
  return complete && spread + uncertainty <= tolerance + SLACK ? 'inside' : 'cannot tell';
}
