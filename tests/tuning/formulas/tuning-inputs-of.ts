import type { TuningInputs } from '../../../src/tuning/formulas/tuning-inputs.js';

/** Inputs of an engine of our own, some of them changed. */
export const inputsOf = (changed: Partial<TuningInputs> = {}): TuningInputs => ({
  rpm: 6500,
  rpmLimit: 7500,
  exhaustOpens: 80,
  exhaustPeriod: 260,
  overlapMiddle: 0,
  overlap: 60,
  bore: 86,
  stroke: 86,
  cylinder: 500_000,
  portLength: 80,
  portArea: 1180,
  tubeBore: 39.2,
  gasTemperature: 873.15,
  soundSpeed: 575,
  ...changed,
});
