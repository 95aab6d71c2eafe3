import { LENGTH_TOLERANCE } from '../geometry/tolerance.js';
import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';

/** Longest minus shortest primary, mm; 0 for one. */
export function spreadOf(lengths: readonly number[]): number {
  return lengths.length > 0 ? Math.max(...lengths) - Math.min(...lengths) : 0;
}

/** Each primary against the target length. */
export function lengthAgainstTarget({ plan, primaries }: CheckContext): Finding[] {
  const { length: target, tolerance } = plan.runners;
  return primaries.map((p) => {
    const off = p.length - target;
    const holds = Math.abs(off) <= tolerance + LENGTH_TOLERANCE;
    return {
      id: 'equal-length.target',
      level: holds ? 'ok' : 'fail',
      place: `cylinder ${p.cylinder}`,
      value: Math.abs(off),
      limit: tolerance,
      unit: 'mm',
      message: `${p.length.toFixed(3)} mm long, ${Math.abs(off).toFixed(3)} mm ${off < 0 ? 'under' : 'over'} the target of ${target.toFixed(3)} mm.`,
    };
  });
}

/** The spread of all primaries against the allowed spread. */
export function spread({ plan, primaries }: CheckContext): Finding[] {
  const value = spreadOf(primaries.map((p) => p.length));
  const limit = plan.runners.tolerance;
  return [
    {
      id: 'equal-length.spread',
      level: value <= limit + LENGTH_TOLERANCE ? 'ok' : 'fail',
      place: 'all primaries',
      value,
      limit,
      unit: 'mm',
      message: `Longest and shortest primary differ by ${value.toFixed(3)} mm; ${limit.toFixed(3)} mm are allowed.`,
    },
  ];
}
