import { INCH, INPUT, type LengthRule, type SizeRule } from './rule.js';
import type { TuningInputs } from './tuning-inputs.js';

const SOURCE =
  'usually credited to Bell, Four-Stroke Performance Tuning (exhaust chapter); also attributed to Smith & Morrison';

const DOUBT =
  'attribution unverified, from memory; the constant 850 stands for a wave at 518 m/s whose round trip takes half the exhaust period, whatever the temperature';

/** Inches from the valve: 850 ED / rpm - 3, ED the degrees from exhaust opening to top dead centre. */
export const durationInches = ({ exhaustPeriod, rpm }: Pick<TuningInputs, 'exhaustPeriod' | 'rpm'>): number =>
  (850 * exhaustPeriod) / rpm - 3;

/** Inside diameter in inches by the volume of one cylinder in cm3: 2.1 sqrt(cc / (25 (P + 3))). */
const durationBore = (t: TuningInputs): number => 2.1 * Math.sqrt(t.cylinder / 1000 / (25 * (durationInches(t) + 3)));

/** Primary length by the exhaust period. Source and doubts as in its fields. */
export const DURATION_LENGTH: LengthRule = {
  name: 'duration',
  title: 'exhaust period',
  formula: 'P = 850 ED / rpm - 3 in, ED = 180 deg + exhaust opening before bottom dead centre',
  source: SOURCE,
  doubt: DOUBT,
  inputs: (t) => [INPUT.period(t), INPUT.rpm(t)],
  fromValve: (t) => durationInches(t) * INCH,
};

/** Primary bore by the same books. */
export const DURATION_BORE: SizeRule = {
  title: 'cylinder volume over length',
  formula: 'ID = 2.1 sqrt(cc / (25 (P + 3))) in, P by the exhaust period',
  source: SOURCE,
  doubt: 'attribution unverified, from memory',
  inputs: (t) => [INPUT.cylinder(t), INPUT.period(t), INPUT.rpm(t)],
  value: (t) => durationBore(t) * INCH,
};

/** Length of the first tubes of a 4-2-1, in, whatever the engine. */
const FIRST_OF_421 = 15;

/** First and second tubes of a 4-2-1. */
export const SPLIT_421: {
  readonly first: SizeRule;
  readonly second: SizeRule;
  readonly secondBore: SizeRule;
} = {
  first: {
    title: '4-2-1, first tubes',
    formula: 'P1 = 15 in from the valve',
    source: SOURCE,
    doubt: 'attribution unverified, from memory',
    inputs: () => [],
    value: () => FIRST_OF_421 * INCH,
  },
  second: {
    title: '4-2-1, second tubes',
    formula: 'P2 = P - 15 in, P by the exhaust period',
    source: SOURCE,
    doubt: 'attribution unverified, from memory',
    inputs: (t) => [INPUT.period(t), INPUT.rpm(t)],
    value: (t) => (durationInches(t) - FIRST_OF_421) * INCH,
  },
  secondBore: {
    title: '4-2-1, bore of the second tubes',
    formula: 'ID2 = 0.93 sqrt(2 ID^2), ID by cylinder volume over length',
    source: SOURCE,
    doubt: 'attribution unverified, from memory',
    inputs: (t) => [INPUT.cylinder(t), INPUT.period(t), INPUT.rpm(t)],
    value: (t) => 0.93 * Math.SQRT2 * durationBore(t) * INCH,
  },
};

/** Tailpipe bore and length. */
export const TAILPIPE: { readonly bore: SizeRule; readonly length: SizeRule } = {
  bore: {
    title: 'tailpipe bore',
    formula: 'ID = 2 sqrt(2 cc / (25 (P + 3))) in',
    source: SOURCE,
    doubt: 'attribution unverified, from memory; for a pipe that four cylinders share',
    inputs: (t) => [INPUT.cylinder(t), INPUT.period(t), INPUT.rpm(t)],
    value: (t) => 2 * Math.sqrt((2 * t.cylinder) / 1000 / (25 * (durationInches(t) + 3))) * INCH,
  },
  length: {
    title: 'tailpipe length, collector included',
    formula: 'P + 3 in, or multiples of it',
    source: SOURCE,
    doubt: 'attribution unverified, from memory',
    inputs: (t) => [INPUT.period(t), INPUT.rpm(t)],
    value: (t) => (durationInches(t) + 3) * INCH,
  },
};
