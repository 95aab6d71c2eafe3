import type { LengthRuleName, Plan } from '../../params/plan.js';
import { DURATION_BORE, SPLIT_421, TAILPIPE } from './duration.js';
import { meanGasSpeed, SPEED_BORES } from './gas-speed.js';
import { collectorLengths, JOINED_PIPE, PAIRS_JOIN, PORT_BORE } from './joined-pipes.js';
import { LENGTH_RULE_LIST } from './length-rules.js';
import { boreOf, nearestTubes, type TubeOnOffer, tubesOnOffer } from './nearest-tube.js';
import { type Rule, type RuleInput, type SizeRule, type Spread, spreadOf } from './rule.js';
import { type ProposedStep, proposedSteps } from './steps.js';
import type { TuningInputs } from './tuning-inputs.js';
import { openingToOverlap, returnAngle, returnBand, type SpeedBand } from './wave-return.js';

/** One rule's answer with all that stands behind it. mm. */
export interface Reckoned {
  /** What it gives, in words. */
  readonly title: string;
  /** As it was published. */
  readonly formula: string;
  /** Where it was published. */
  readonly source: string;
  /** What speaks against leaning on it. */
  readonly doubt: string;
  /** What it was given. */
  readonly inputs: readonly RuleInput[];
  /** What it comes to. */
  readonly value: number;
  /** Whether it is a limit rather than an aim; null for an aim. */
  readonly bound: 'at least' | 'at most' | null;
}

/** A length by a rule: from the valve and from the head face, mm. */
export interface ReckonedLength extends Reckoned {
  /** Name of the rule in a plan. */
  readonly name: LengthRuleName;
  /** Length from the head face to the inlet plane, mm. */
  readonly fromFace: number;
  /** True for the rule of the plan. */
  readonly chosen: boolean;
}

/** All published rules side by side for one engine. mm, m/s, rev/min, crank degrees. */
export interface TuningTable {
  /** What all rules were given. */
  readonly inputs: TuningInputs;
  /** Each rule for the length. */
  readonly lengths: readonly ReckonedLength[];
  /** Of the lengths from the head face. */
  readonly lengthSpread: Spread;
  /** Each rule for the bore. */
  readonly bores: readonly Reckoned[];
  /** Of the bores that are aims, not bounds. */
  readonly boreSpread: Spread;
  /** The tubes on offer next to the median bore. */
  readonly tubes: {
    /** The next smaller; null when there is none. */
    readonly below: TubeOnOffer | null;
    /** The next larger; null when there is none. */
    readonly above: TubeOnOffer | null;
  };
  /** Rules for a length in two steps. */
  readonly split: readonly Reckoned[];
  /** Rules for the collector. */
  readonly collector: readonly Reckoned[];
  /** Of the chosen length, one step and two. */
  readonly steps: readonly (readonly ProposedStep[])[];
  /** When the waves come back. */
  readonly timing: WaveTiming;
  /** Mean gas speed in the plan's tube. */
  readonly gasSpeed: number;
}

/** What the waves of the chosen length do. */
export interface WaveTiming {
  /** Length from the head face they are told of. */
  readonly fromFace: number;
  /** Degrees from exhaust opening to the middle of the overlap. */
  readonly wanted: number;
  /** Degrees after opening at which the first and the second rarefaction are back at the engine speed tuned for. */
  readonly first: number;
  /** Of the second return. */
  readonly second: number;
  /** Engine speeds at which the front of the first and the second falls into the overlap; null without overlap. */
  readonly bands: readonly [SpeedBand, SpeedBand] | null;
}

/** Every rule's answer for a plan whose target is fixed. */
export function tuningTable(plan: Plan, t: TuningInputs): TuningTable {
  const lengths = LENGTH_RULE_LIST.map((rule) => ({
    ...reckoned(rule, t, rule.fromValve(t)),
    name: rule.name,
    fromFace: rule.fromValve(t) - t.portLength,
    chosen: plan.runners.tuned && plan.tuning.rule === rule.name,
  }));
  const bores = [DURATION_BORE, ...SPEED_BORES, PORT_BORE].map((rule) => sized(rule, t));
  const boreSpread = spreadOf(bores.filter((b) => b.bound === null).map((b) => b.value));
  const { length } = plan.runners;
  const fromValve = length + t.portLength;
  const outlet = lastOutlet(plan);
  return {
    inputs: t,
    lengths,
    lengthSpread: spreadOf(lengths.map((l) => l.fromFace)),
    bores,
    boreSpread,
    tubes: nearestTubes(tubesOnOffer(plan), boreSpread.median),
    split: [SPLIT_421.first, SPLIT_421.second, SPLIT_421.secondBore, PAIRS_JOIN, JOINED_PIPE].map((r) => sized(r, t)),
    collector: [...collectorLengths(outlet), TAILPIPE.bore, TAILPIPE.length].map((r) => sized(r, t)),
    steps: [1, 2].map((count) => proposedSteps(t, plan.tube, length, count)),
    timing: {
      fromFace: length,
      wanted: openingToOverlap(t),
      first: returnAngle(t.soundSpeed, fromValve, t.rpm, 1),
      second: returnAngle(t.soundSpeed, fromValve, t.rpm, 2),
      bands: t.overlap <= 0 ? null : [returnBand(t, fromValve, 1)!, returnBand(t, fromValve, 2)!],
    },
    gasSpeed: meanGasSpeed(t, t.tubeBore),
  };
}

/** Bore, mm, of the outlet the gas leaves the header by: of the last collector in the plan that feeds no other. */
function lastOutlet({ collectors }: Plan): number {
  const last = collectors.filter((c) => !collectors.some((o) => o.from.includes(c.name))).at(-1)!;
  return boreOf(last.outlet);
}

const reckoned = (rule: Rule, t: TuningInputs, value: number): Reckoned => ({
  title: rule.title,
  formula: rule.formula,
  source: rule.source,
  doubt: rule.doubt,
  inputs: rule.inputs(t),
  value,
  bound: null,
});

const sized = (rule: SizeRule, t: TuningInputs): Reckoned => ({
  ...reckoned(rule, t, rule.value(t)),
  bound: rule.bound ?? null,
});
