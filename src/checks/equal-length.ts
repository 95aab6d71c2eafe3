import { LENGTH_TOLERANCE } from '../geometry/tolerance.js';
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
    ...primaries.map((p) => againstTarget(p, plan.runners.tolerance)),
    ...secondaries.map((s) => againstTarget(s, plan.secondaries!.tolerance)),
  ];
}

function againstTarget({ name, length, target }: RoutedTube, tolerance: number): Finding {
  const off = Math.abs(length - target);
  return {
    id: 'equal-length.target',
    level: off <= tolerance + LENGTH_TOLERANCE ? 'ok' : 'fail',
    place: name,
    value: off,
    limit: tolerance,
    unit: 'mm',
    message: `${length.toFixed(3)} mm long, ${off.toFixed(3)} mm ${length < target ? 'under' : 'over'} the target of ${target.toFixed(3)} mm.`,
  };
}

/** The spread of all primaries, and of all secondaries, against the allowed one. */
export function spread({ plan, primaries, secondaries }: CheckContext): Finding[] {
  const all = [spreadFinding('equal-length.spread', 'all primaries', primaries, plan.runners.tolerance)];
  if (plan.secondaries) {
    all.push(spreadFinding('equal-length.secondaries', 'all secondaries', secondaries, plan.secondaries.tolerance));
  }
  return all;
}

function spreadFinding(id: string, place: string, tubes: readonly RoutedTube[], limit: number): Finding {
  const value = spreadOf(tubes.map((t) => t.length));
  return {
    id,
    level: value <= limit + LENGTH_TOLERANCE ? 'ok' : 'fail',
    place,
    value,
    limit,
    unit: 'mm',
    message: `Longest and shortest differ by ${value.toFixed(3)} mm; ${limit.toFixed(3)} mm are allowed.`,
  };
}
