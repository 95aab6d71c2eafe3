import { endCorrection } from './end-correction.js';
import { INPUT, type LengthRule } from './rule.js';
import type { TuningInputs } from './tuning-inputs.js';
import { lengthForReturn, type Rarefaction, roundTrips } from './wave-return.js';

/** Crank degrees from the middle of the blow-down to the middle of the overlap. The middle lies half way from opening to bottom dead centre: common practice, no source. */
const blowDownToOverlap = (t: Pick<TuningInputs, 'exhaustOpens' | 'overlapMiddle'>): number =>
  180 + t.exhaustOpens / 2 + t.overlapMiddle;

const rule = (which: Rarefaction, name: LengthRule['name'], title: string): LengthRule => ({
  name,
  title,
  formula: `L = a / (4 f) - 0.6133 r, with mid-overlap ${which === 1 ? 'half a period' : 'one and a half periods'} after the middle of blow-down`,
  source: 'stopped pipe f = a / 4 L; end correction Levine & Schwinger, Phys. Rev. 73, 383 (1948)',
  doubt:
    'small waves in gas at rest; a valve that is open is no closed end, and a collector no free end; middle of blow-down by common practice, no source',
  inputs: (t) => [
    { name: 'angle', value: blowDownToOverlap(t), unit: 'deg' },
    INPUT.rpm(t),
    INPUT.temperature(t),
    INPUT.sound(t),
    INPUT.tube(t),
  ],
  fromValve: (t) =>
    // a trough n half periods after the pulse is n trips of 2 L / a, L with the end correction
    lengthForReturn(t.soundSpeed, blowDownToOverlap(t), t.rpm, roundTrips(which)) - endCorrection(t.tubeBore / 2),
});

/** Primary length as a stopped pipe whose pressure is lowest half a period after the blow-down. */
export const QUARTER_WAVE = rule(1, 'quarter_wave', 'quarter wave, first trough');

/** The same for the next trough, a whole period later. */
export const QUARTER_WAVE_SECOND = rule(2, 'quarter_wave_second', 'quarter wave, second trough');
