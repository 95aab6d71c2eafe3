import type { CylinderResult, RpmResult, SweepResult } from './results.js';

/** Means over the cylinders at one engine speed. SI units. */
export interface CycleMeans {
  readonly rpm: number;
  /** J a cycle and cylinder. */
  readonly indicatedWork: number;
  readonly pumpingWork: number;
  readonly chargingEfficiency: number;
  readonly residualFraction: number;
  /** Pa; null without overlap. */
  readonly overlapDifference: number | null;
  readonly rarefactionAt: number;
  readonly exhaustTemperature: number;
  /** Best minus worst cylinder of the caught fresh gas, over their mean: what unequal pipes do to the mixture and the load. */
  readonly chargeSpread: number;
}

const meanOf = (cylinders: readonly CylinderResult[], of: (c: CylinderResult) => number): number =>
  cylinders.reduce((sum, c) => sum + of(c), 0) / cylinders.length;

/** Means over the cylinders. */
export function cycleMeans({ rpm, cylinders }: RpmResult): CycleMeans {
  const charges = cylinders.map((c) => c.freshCharge);
  const overlap = cylinders.some((c) => c.overlapDifference === null);
  return {
    rpm,
    indicatedWork: meanOf(cylinders, (c) => c.indicatedWork),
    pumpingWork: meanOf(cylinders, (c) => c.pumpingWork),
    chargingEfficiency: meanOf(cylinders, (c) => c.chargingEfficiency),
    residualFraction: meanOf(cylinders, (c) => c.residualFraction),
    overlapDifference: overlap ? null : meanOf(cylinders, (c) => c.overlapDifference!),
    rarefactionAt: meanOf(cylinders, (c) => c.rarefactionAt),
    exhaustTemperature: meanOf(cylinders, (c) => c.exhaustTemperature),
    chargeSpread: (Math.max(...charges) - Math.min(...charges)) / meanOf(cylinders, (c) => c.freshCharge),
  };
}

/** One exhaust against another at one engine speed: the second minus the first. */
export interface SpeedComparison {
  readonly rpm: number;
  readonly first: CycleMeans;
  readonly second: CycleMeans;
  /** Of indicated work, as a fraction of the first's: above zero the second does more. */
  readonly work: number;
  /** Of the fresh gas caught, as a fraction of the first's. */
  readonly charge: number;
  /** J a cycle and cylinder: below zero the second spends less on pumping. */
  readonly pumping: number;
  /** Pa: below zero the second draws more. */
  readonly overlap: number | null;
}

/** One exhaust against another. */
export interface SweepComparison {
  readonly first: string;
  readonly second: string;
  readonly speeds: readonly SpeedComparison[];
  /** Mean of `work` over the speeds. */
  readonly meanWork: number;
  /** Where the second does most for it and least. */
  readonly best: SpeedComparison;
  readonly worst: SpeedComparison;
  /** Engine speeds, rev/min, at which the two do the same work: straight lines between the speeds calculated. */
  readonly balances: readonly number[];
}

/**
 * Compares two sweeps of the same engine speeds: header and manifold, as routed and equal lengths (what the spread of lengths costs).
 * Throws RangeError when their speeds differ.
 */
export function compareSweeps(a: SweepResult, b: SweepResult): SweepComparison {
  const list = (s: SweepResult): string => s.points.map((p) => p.rpm).join(', ');
  if (list(a) !== list(b) || a.points.length === 0) {
    throw new RangeError(`engine speeds to compare: found ${list(a)} and ${list(b)}; expected the same`);
  }
  const speeds = a.points.map((p, i) => compareAt(cycleMeans(p), cycleMeans(b.points[i]!)));
  const by = (sign: 1 | -1): SpeedComparison => speeds.reduce((x, y) => (sign * y.work > sign * x.work ? y : x));
  return {
    first: a.system,
    second: b.system,
    speeds,
    meanWork: speeds.reduce((sum, s) => sum + s.work, 0) / speeds.length,
    best: by(1),
    worst: by(-1),
    balances: crossings(
      speeds.map((s) => s.rpm),
      speeds.map((s) => s.work),
      0,
    ).map((c) => c.at),
  };
}

function compareAt(first: CycleMeans, second: CycleMeans): SpeedComparison {
  const [x, y] = [first.overlapDifference, second.overlapDifference];
  return {
    rpm: first.rpm,
    first,
    second,
    work: second.indicatedWork / first.indicatedWork - 1,
    charge: second.chargingEfficiency / first.chargingEfficiency - 1,
    pumping: second.pumpingWork - first.pumpingWork,
    overlap: x === null || y === null ? null : y - x,
  };
}

/** Where a row of values passes a level, by straight lines between them. */
export function crossings(
  at: readonly number[],
  values: readonly number[],
  level: number,
): { readonly at: number; readonly rising: boolean }[] {
  const found: { at: number; rising: boolean }[] = [];
  for (let i = 1; i < at.length; i++) {
    const [v, w] = [values[i - 1]! - level, values[i]! - level];
    if (v * w < 0 || (v !== 0 && w === 0)) {
      found.push({ at: at[i - 1]! + ((at[i]! - at[i - 1]!) * v) / (v - w), rising: w > v });
    }
  }
  return found;
}
