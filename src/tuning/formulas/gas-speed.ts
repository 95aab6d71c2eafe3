import { INCH, INPUT, type SizeRule } from './rule.js';
import type { TuningInputs } from './tuning-inputs.js';

/** m/s of a ft/s. */
const FOOT = 0.3048;

/**
 * Mean gas speed, m/s, in a pipe of a bore, mm, by continuity with the piston: (rpm S / 360) (B / d)^2 ft/s with inches. What the piston
 * sweeps goes through once a revolution, uncompressed and unheated.
 */
export const meanGasSpeed = (t: Pick<TuningInputs, 'rpm' | 'stroke' | 'bore'>, d: number): number =>
  ((t.rpm * t.stroke) / INCH / 360) * (t.bore / d) ** 2 * FOOT;

/** Bore, mm, for a mean gas speed, m/s: d = sqrt(rpm S B^2 / X), X = 360 times the speed in ft/s, inches. */
export const boreForSpeed = (t: Pick<TuningInputs, 'rpm' | 'stroke' | 'bore'>, speed: number): number =>
  Math.sqrt(((t.rpm * t.stroke) / INCH) * (t.bore / INCH) ** 2 * (FOOT / (360 * speed))) * INCH;

const rule = (feet: number): SizeRule => ({
  title: `gas speed ${Math.round(feet * FOOT)} m/s`,
  formula: `d = sqrt(rpm S B^2 / ${feet * 360}) in: a mean of ${feet} ft/s`,
  source: 'continuity; the constants from a forum',
  doubt: 'the speed is a habit, not a law; gas is taken as if it were neither hot nor pulsing',
  inputs: (t) => [INPUT.rpm(t), INPUT.bore(t), INPUT.stroke(t)],
  value: (t) => boreForSpeed(t, feet * FOOT),
});

/** Widest and narrowest primary bore by continuity. */
export const SPEED_BORES: readonly SizeRule[] = [rule(240), rule(300)];
