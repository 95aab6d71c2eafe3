import type { GasEngine } from '../../tuning/engine/gas-engine.js';
import { bestLength, LENGTH_SEARCH, type LengthFound } from '../../tuning/engine/length-search.js';
import { type Sensitivity, sensitivityOf } from '../../tuning/engine/sensitivity.js';
import type { SweepOptions } from '../../tuning/engine/sweep.js';
import { primaryLength } from '../../tuning/engine/variants.js';
import type { ExhaustSystem } from '../../tuning/exhaust-system.js';

/** What other lengths and small changes would do to a header: lengths in m from valve to joint. */
export interface Exploration {
  /** Engine speeds that were counted alike, rev/min. */
  readonly speeds: readonly number[];
  readonly band: { readonly from: number; readonly to: number };
  /** Length of the header as it is. */
  readonly length: number;
  readonly best: LengthFound;
  readonly changes: readonly Sensitivity[];
}

/** Lengths searched where the plan has no band, as parts of the header's own. */
const SHORTEST = 0.6;
const LONGEST = 1.4;

/** Engine speeds that count, as parts of that of peak power. */
const SPEEDS: readonly number[] = [0.8, 0.9, 1];

/**
 * Searches the best common length of the primaries for the work of the cycle about peak power, and tries small changes one at a time.
 * `band`: lengths to search, m from valve to joint; about the header's own when null. Rejects with RangeError for what is unphysical.
 */
export async function explore(
  system: ExhaustSystem,
  engine: GasEngine,
  power: number,
  band: { readonly from: number; readonly to: number } | null,
  options: SweepOptions,
): Promise<Exploration> {
  const length = primaryLength(system);
  const speeds = SPEEDS.map((part) => part * power);
  const wanted = band ?? { from: SHORTEST * length, to: LONGEST * length };
  const best = await bestLength(system, engine, { ...LENGTH_SEARCH, ...wanted, rpms: speeds }, options);
  return { speeds, band: wanted, length, best, changes: await sensitivityOf(system, engine, speeds, options) };
}
