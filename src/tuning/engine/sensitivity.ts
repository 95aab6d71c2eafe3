import type { ExhaustSystem } from '../exhaust-system.js';
import { compareSweeps, type SweepComparison } from './compare.js';
import type { GasEngine } from './gas-engine.js';
import { type SweepOptions, sweep } from './sweep.js';
import {
  hasSteps,
  withCollectorLength,
  withJointVolume,
  withoutSteps,
  withPrimariesTimes,
  withPrimaryBore,
  withStep,
} from './variants.js';

/** What one change of an exhaust does, all else the same. */
export interface Sensitivity {
  /** 'primaries 5 % longer'. */
  readonly change: string;
  readonly comparison: SweepComparison;
}

/** A bore one stock size up, by which a step in a primary grows (common practice, no source). */
const STEP_GROWTH = 1.08;

/** The changes that are tried: one at a time. A step is taken away where there is one and else put in. */
export function changesOf(system: ExhaustSystem): { readonly change: string; readonly system: ExhaustSystem }[] {
  const stepped = hasSteps(system)
    ? { change: 'primaries without their steps', system: withoutSteps(system) }
    : { change: 'primaries with a step of 8 % in bore at half length', system: withStep(system, 0.5, STEP_GROWTH) };
  return [
    { change: 'primaries 5 % shorter', system: withPrimariesTimes(system, 0.95) },
    { change: 'primaries 5 % longer', system: withPrimariesTimes(system, 1.05) },
    { change: 'primaries 5 % narrower in bore', system: withPrimaryBore(system, 0.95) },
    { change: 'primaries 5 % wider in bore', system: withPrimaryBore(system, 1.05) },
    stepped,
    { change: 'everything after the primaries a quarter shorter', system: withCollectorLength(system, 0.75) },
    { change: 'everything after the primaries a quarter longer', system: withCollectorLength(system, 1.25) },
    { change: 'joints of double volume', system: withJointVolume(system, 2) },
  ];
}

/** How an exhaust answers to small changes of length, bore, step and collector, over engine speeds. Rejects like `sweep`. */
export async function sensitivityOf(
  system: ExhaustSystem,
  engine: GasEngine,
  rpms: readonly number[],
  options: SweepOptions = {},
): Promise<Sensitivity[]> {
  const base = await sweep(system, engine, rpms, options);
  const found: Sensitivity[] = [];
  for (const { change, system: changed } of changesOf(system)) {
    found.push({ change, comparison: compareSweeps(base, await sweep(changed, engine, rpms, options)) });
  }
  return found;
}
