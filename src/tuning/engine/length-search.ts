import type { ExhaustSystem } from '../exhaust-system.js';
import { cycleMeans } from './compare.js';
import { checkRange, type GasEngine } from './gas-engine.js';
import type { RpmResult } from './results.js';
import { type SweepOptions, sweep } from './sweep.js';
import { withPrimaryLength } from './variants.js';

/** What a length is wanted for. */
export type LengthAim =
  /** Most work over the band. */
  | 'work'
  /** Most fresh gas caught. */
  | 'charge'
  /** Lowest exhaust pressure over the overlap. */
  | 'draw';

/** Lengths to search, m from the valve to the first joint, and for what. */
export interface LengthSearch {
  readonly from: number;
  readonly to: number;
  /** Engine speeds, rev/min, that count alike. */
  readonly rpms: readonly number[];
  readonly aim: LengthAim;
  /** How near the length found is to the best, m. */
  readonly within: number;
  /** Lengths tried evenly before the best of them is closed in on: a finer grid misses no narrow peak. */
  readonly grid: number;
}

export interface LengthFound {
  /** m. */
  readonly length: number;
  readonly score: number;
  /** True when the best length lies at the edge of the band: the band does not hold the peak. */
  readonly atEdge: boolean;
  /** Every length tried, shortest first. The score is in J, in parts of a full charge, or in Pa below the intake, by the aim. */
  readonly tried: readonly { readonly length: number; readonly score: number }[];
}

export const LENGTH_SEARCH = { aim: 'work', within: 0.01, grid: 9 } as const;

const SCORES: Readonly<Record<LengthAim, (point: RpmResult) => number>> = {
  work: (p) => cycleMeans(p).indicatedWork,
  charge: (p) => cycleMeans(p).chargingEfficiency,
  draw: (p) => -(cycleMeans(p).overlapDifference ?? 0),
};

/**
 * The best common length of the primaries of an exhaust: an even grid, then golden sections about its best. Everything else of the exhaust
 * stays. Rejects with RangeError for a band that is none, and where the exhaust cannot be calculated.
 */
export async function bestLength(
  system: ExhaustSystem,
  engine: GasEngine,
  search: LengthSearch,
  options: SweepOptions = {},
): Promise<LengthFound> {
  checkSearch(search);
  const { from, to, rpms, aim, within, grid } = search;
  const tried = new Map<number, number>();
  const score = async (length: number): Promise<number> => {
    const { points } = await sweep(withPrimaryLength(system, length), engine, rpms, options);
    const mean = points.reduce((sum, p) => sum + SCORES[aim](p), 0) / points.length;
    tried.set(length, mean);
    return mean;
  };
  const lengths = Array.from({ length: grid }, (_, i) => from + ((to - from) * i) / (grid - 1));
  for (const length of lengths) await score(length);
  const best = lengths.reduce((a, b) => (tried.get(b)! > tried.get(a)! ? b : a));
  const step = (to - from) / (grid - 1);
  await closeIn(score, Math.max(from, best - step), Math.min(to, best + step), within);
  const all = [...tried].map(([length, s]) => ({ length, score: s })).sort((a, b) => a.length - b.length);
  const found = all.reduce((a, b) => (b.score > a.score ? b : a));
  const atEdge = found.length - from < within || to - found.length < within;
  return { ...found, atEdge, tried: all };
}

/** Golden sections: tries lengths until the best one is known as near as wanted. */
async function closeIn(
  score: (length: number) => Promise<number>,
  from: number,
  to: number,
  within: number,
): Promise<void> {
  const golden = (Math.sqrt(5) - 1) / 2;
  let [a, b] = [from, to];
  let [c, d] = [b - golden * (b - a), a + golden * (b - a)];
  let [fc, fd] = [await score(c), await score(d)];
  while (b - a > 2 * within) {
    if (fc > fd) {
      [b, d, fd] = [d, c, fc];
      c = b - golden * (b - a);
      fc = await score(c);
    } else {
      [a, c, fc] = [c, d, fd];
      d = a + golden * (b - a);
      fd = await score(d);
    }
  }
}

function checkSearch({ from, to, rpms, within, grid }: LengthSearch): void {
  checkRange('shortest length of the search', from, 0.05, 5, 'm');
  checkRange('longest length of the search', to, from + within, 5, 'm');
  checkRange('lengths tried evenly', grid, 3, 200, '');
  checkRange('how near the length is wanted', within, 1e-4, 0.5, 'm');
  if (rpms.length === 0) throw new RangeError('engine speeds of the search: found none; expected one or more');
}
