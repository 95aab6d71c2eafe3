import { crossings, cycleMeans } from './compare.js';
import type { SweepResult } from './results.js';

/** At which engine speeds the exhaust helps the cylinder over its overlap. */
export interface TunedSpeeds {
  /** Speeds, rev/min, at which the lowest pressure behind the valve passes the middle of the overlap, later with rising speed. */
  readonly rarefactionInOverlap: readonly number[];
  /** The speed with the lowest pressure over the overlap, and that pressure minus the intake's, Pa. */
  readonly strongestDraw: { readonly rpm: number; readonly difference: number };
  /** Stretches of speed, rev/min, in which the exhaust draws: its mean pressure over the overlap lies below the intake's. */
  readonly draws: readonly { readonly from: number; readonly to: number }[];
}

/** Reads the tuned speeds from a sweep; null when the valves never overlap. Throws RangeError for a sweep without speeds. */
export function tunedSpeeds({ points, events }: SweepResult): TunedSpeeds | null {
  if (points.length === 0) throw new RangeError('a sweep without engine speeds has no tuned one');
  if (events.intakeOpens >= events.exhaustCloses) return null;
  const means = points.map(cycleMeans);
  const rpms = means.map((m) => m.rpm);
  const middle = (events.intakeOpens + events.exhaustCloses) / 2;
  const overlap = means.map((m) => m.overlapDifference!);
  const best = overlap.indexOf(Math.min(...overlap));
  const arrivals = crossings(
    rpms,
    means.map((m) => m.rarefactionAt),
    middle,
  );
  return {
    rarefactionInOverlap: arrivals.filter((c) => c.rising).map((c) => c.at),
    strongestDraw: { rpm: rpms[best]!, difference: overlap[best]! },
    draws: stretchesBelow(rpms, overlap),
  };
}

/** Stretches in which values lie below zero. */
function stretchesBelow(at: readonly number[], values: readonly number[]): { from: number; to: number }[] {
  const stretches: { from: number; to: number }[] = [];
  let from = values[0]! < 0 ? at[0]! : null;
  for (const { at: where, rising } of crossings(at, values, 0)) {
    if (!rising) from = where;
    else if (from !== null) {
      stretches.push({ from, to: where });
      from = null;
    }
  }
  return from === null ? stretches : [...stretches, { from, to: at.at(-1)! }];
}
