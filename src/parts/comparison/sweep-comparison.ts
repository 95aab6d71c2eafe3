import { type CycleMeans, cycleMeans } from '../../tuning/engine/compare.js';
import type { RpmResult, SweepResult } from '../../tuning/engine/results.js';
import { type TunedSpeeds, tunedSpeeds } from '../../tuning/engine/tuned-speed.js';

/** Means over the cylinders of one exhaust at one engine speed, and what its end gives. */
export interface SpeedFigures extends CycleMeans {
  /** What pulses and steady flow offer a turbine, J a cycle, all outlets together; null without one. */
  readonly pulse: number | null;
  readonly steady: number | null;
  readonly converged: boolean;
}

/** An exhaust over the engine speeds of a sweep, and its means over all of them. */
export interface SweepFigures {
  readonly system: string;
  readonly speeds: readonly SpeedFigures[];
  readonly mean: {
    /** Pa; null without overlap. */
    readonly overlap: number | null;
    /** J a cycle and cylinder. */
    readonly pumping: number;
    readonly charging: number;
    /** J a cycle and cylinder, for comparing only. */
    readonly work: number;
  };
  /** Null where the valves do not overlap. */
  readonly tuned: TunedSpeeds | null;
}

const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length;

/** Mean of what is known; null where anything is not. */
const meanOrNull = (values: readonly (number | null)[]): number | null => {
  const known = values.filter((v) => v !== null);
  return known.length < values.length || known.length === 0 ? null : mean(known);
};

const sumOrNull = (values: readonly (number | null)[]): number | null => {
  const all = meanOrNull(values);
  return all === null ? null : all * values.length;
};

/** The figures of a sweep that exhausts are compared by. */
export function sweepFigures(result: SweepResult): SweepFigures {
  const speeds = result.points.map(speedFigures);
  return {
    system: result.system,
    speeds,
    mean: {
      overlap: meanOrNull(speeds.map((s) => s.overlapDifference)),
      pumping: mean(speeds.map((s) => s.pumpingWork)),
      charging: mean(speeds.map((s) => s.chargingEfficiency)),
      work: mean(speeds.map((s) => s.indicatedWork)),
    },
    tuned: tunedSpeeds(result),
  };
}

const speedFigures = (point: RpmResult): SpeedFigures => ({
  ...cycleMeans(point),
  pulse: sumOrNull(point.outlets.map((o) => o.pulseEnergy)),
  steady: sumOrNull(point.outlets.map((o) => o.steadyEnergy)),
  converged: point.convergence.converged,
});

/** A stretch of engine speeds in which one of two is better, rev/min; `null` where they are level all along. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly better: 'first' | 'second';
}

/**
 * Where which of two is better, the lower value winning, with the places they change by straight lines between the speeds. Both must have the
 * same speeds: RangeError otherwise.
 */
export function stretchesOf(
  first: readonly { readonly rpm: number; readonly value: number }[],
  second: readonly { readonly rpm: number; readonly value: number }[],
): Stretch[] {
  if (first.length !== second.length || first.some((p, i) => p.rpm !== second[i]!.rpm)) {
    throw new RangeError('two exhausts are compared at the same engine speeds');
  }
  const lead = first.map((p, i) => ({ rpm: p.rpm, by: second[i]!.value - p.value }));
  const stretches: Stretch[] = [];
  let from = lead[0]?.rpm ?? 0;
  for (let i = 1; i < lead.length; i++) {
    const [a, b] = [lead[i - 1]!, lead[i]!];
    if (a.by * b.by >= 0) continue;
    const change = a.rpm + ((b.rpm - a.rpm) * a.by) / (a.by - b.by);
    stretches.push({ from, to: change, better: a.by > 0 ? 'first' : 'second' });
    from = change;
  }
  const last = [...lead].reverse().find((l) => l.by !== 0);
  if (last !== undefined) stretches.push({ from, to: lead.at(-1)!.rpm, better: last.by > 0 ? 'first' : 'second' });
  return stretches;
}
