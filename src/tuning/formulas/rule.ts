import type { LengthRuleName } from '../../params/plan.js';
import type { TuningInputs } from './tuning-inputs.js';

/** A number a rule reckons with, as a table shows it. */
export interface RuleInput {
  /** What it is. */
  readonly name: string;
  /** In `unit`. */
  readonly value: number;
  /** Unit of the value. */
  readonly unit: 'mm' | 'mm2' | 'cm3' | 'deg' | 'rev/min' | 'C' | 'm/s' | '';
}

/** A published rule: what it says, who says it, and how far to trust it. */
export interface Rule {
  readonly title: string;
  /** As the rule is written, with its own units. */
  readonly formula: string;
  readonly source: string;
  readonly doubt: string;
  readonly inputs: (t: TuningInputs) => readonly RuleInput[];
}

/** A rule for the length of a primary, counted from the valve. */
export interface LengthRule extends Rule {
  readonly name: LengthRuleName;
  /** mm from the valve. */
  readonly fromValve: (t: TuningInputs) => number;
}

/** A rule for a bore or a length beyond the primary, mm. */
export interface SizeRule extends Rule {
  readonly value: (t: TuningInputs) => number;
  /** What the value is where it is no aim. */
  readonly bound?: 'at least' | 'at most';
}

/** Lowest, middle and highest of some answers. */
export interface Spread {
  /** The least. */
  readonly least: number;
  /** The middle one. */
  readonly median: number;
  /** The most. */
  readonly most: number;
}

/** The spread of values; of an even number the median is the middle of the two in the middle. Throws RangeError for none. */
export function spreadOf(values: readonly number[]): Spread {
  if (values.length === 0) throw new RangeError('no values have no spread');
  const sorted = [...values].sort((a, b) => a - b);
  const half = (sorted.length - 1) / 2;
  const median = (sorted[Math.floor(half)]! + sorted[Math.ceil(half)]!) / 2;
  return { least: sorted[0]!, median, most: sorted.at(-1)! };
}

/** mm in an inch. */
export const INCH = 25.4;

const input =
  (name: string, unit: RuleInput['unit'], of: (t: TuningInputs) => number) =>
  (t: TuningInputs): RuleInput => ({ name, unit, value: of(t) });

/** Inputs that several rules share. */
export const INPUT = {
  rpm: input('engine speed', 'rev/min', (t) => t.rpm),
  period: input('exhaust period', 'deg', (t) => t.exhaustPeriod),
  cylinder: input('one cylinder', 'cm3', (t) => t.cylinder / 1000),
  bore: input('cylinder bore', 'mm', (t) => t.bore),
  stroke: input('stroke', 'mm', (t) => t.stroke),
  tube: input('tube bore', 'mm', (t) => t.tubeBore),
  port: input('port area', 'mm2', (t) => t.portArea),
  temperature: input('gas', 'C', (t) => t.gasTemperature - 273.15),
  sound: input('speed of sound', 'm/s', (t) => t.soundSpeed),
} as const;
