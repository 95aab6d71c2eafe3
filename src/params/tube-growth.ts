import { LENGTH_TOLERANCE } from '../geometry/tolerance.js';
import type { PlanFault, PlanPath } from './faults/plan-problem.js';
import { lengthWords } from './faults/wording.js';
import type { LengthUnit } from './units.js';

/** Outside diameter and wall of a tube, mm. */
export interface TubeSize {
  readonly od: number;
  readonly wall: number;
}

const REASON = 'a contraction raises pressure and temperature';

/**
 * What keeps one tube from following another along the gas: it must be a larger tube, or only no smaller one, and its bore no less
 * than the bore before.
 */
export function growthFaults(
  before: TubeSize,
  after: TubeSize,
  wanted: 'a larger tube' | 'no smaller tube',
  path: PlanPath,
  unit: LengthUnit,
): PlanFault[] {
  const words = (mm: number) => lengthWords(mm, unit);
  const growth = after.od - before.od;
  if (wanted === 'a larger tube' ? growth <= LENGTH_TOLERANCE : growth < -LENGTH_TOLERANCE) {
    const limit = wanted === 'a larger tube' ? 'over' : 'of at least';
    const message = `expected an od ${limit} ${words(before.od)}, the tube before it, found ${words(after.od)}: ${REASON}`;
    return [{ path: [...path, 'od'], message }];
  }
  const [bore, least] = [after.od - 2 * after.wall, before.od - 2 * before.wall];
  if (bore >= least - LENGTH_TOLERANCE || bore <= 0) return [];
  const message = `this wall leaves a bore of ${words(bore)}, less than the ${words(least)} of the tube before it: ${REASON}`;
  return [{ path: [...path, 'wall'], message }];
}
