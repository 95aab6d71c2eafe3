import { LENGTH_TOLERANCE } from '../geometry/tolerance.js';
import { type LengthWords, lengthsIn } from '../params/faults/wording.js';
import type { RoutedTube } from '../routing/routed.js';
import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';

/** Longest minus shortest tube, mm; 0 for one. */
export function spreadOf(lengths: readonly number[]): number {
  return lengths.length > 0 ? Math.max(...lengths) - Math.min(...lengths) : 0;
}

/** Each primary and each secondary against its target length. */
export function lengthAgainstTarget({ plan, primaries, secondaries }: CheckContext): Finding[] {
  return [
    ...primaries.map((p) => againstTarget(p, plan.runners.tolerance, lengthsIn(plan.units))),
    ...secondaries.map((s) => againstTarget(s, plan.secondaries!.tolerance, lengthsIn(plan.units))),
  ];
}

function againstTarget({ name, length, target }: RoutedTube, tolerance: number, words: LengthWords): Finding {
  const off = Math.abs(length - target);
  return {
    id: 'equal-length.target',
    level: off <= tolerance + LENGTH_TOLERANCE ? 'ok' : 'fail',
    place: name,
    value: off,
    limit: tolerance,
    unit: 'mm',
    message: `${words(length, 3)} long, ${words(off, 3)} ${length < target ? 'under' : 'over'} the target of ${words(target, 3)}.`,
  };
}

/** The spread of all primaries, and of all secondaries, against the allowed one. */
export function spread({ plan, primaries, secondaries }: CheckContext): Finding[] {
  const words = lengthsIn(plan.units);
  const all = [spreadFinding('equal-length.spread', 'all primaries', primaries, plan.runners.tolerance, words)];
  if (plan.secondaries) {
    const limit = plan.secondaries.tolerance;
    all.push(spreadFinding('equal-length.secondaries', 'all secondaries', secondaries, limit, words));
  }
  return all;
}

function spreadFinding(
  id: string,
  place: string,
  tubes: readonly RoutedTube[],
  limit: number,
  words: LengthWords,
): Finding {
  const value = spreadOf(tubes.map((t) => t.length));
  return {
    id,
    level: value <= limit + LENGTH_TOLERANCE ? 'ok' : 'fail',
    place,
    value,
    limit,
    unit: 'mm',
    message: `Longest and shortest differ by ${words(value, 3)}; ${words(limit, 3)} are allowed.`,
  };
}
