import { INPUT, type LengthRule } from './rule.js';
import type { TuningInputs } from './tuning-inputs.js';

/** Degrees an engine turns in a second at one rev/min. */
const DEGREES_A_SECOND = 6;

/** Which of the rarefactions is meant: a wave thrown back by the open end comes back as one on its first, third, ... return. */
export type Rarefaction = 1 | 2;

/** Round trips of the pulse until a rarefaction is back at the valve. */
export const roundTrips = (which: Rarefaction): number => 2 * which - 1;

/** Crank degrees from the opening of the exhaust valve to the middle of the overlap. */
export const openingToOverlap = (t: Pick<TuningInputs, 'exhaustOpens' | 'overlapMiddle'>): number =>
  180 + t.exhaustOpens + t.overlapMiddle;

/**
 * Length, mm, of a pipe whose pulse is back after so many crank degrees and round trips: L = a angle / (12 rpm n), from time = angle / (6 rpm)
 * and 2 n L = a time. `sound` in m/s. Elementary acoustics.
 */
export const lengthForReturn = (sound: number, angle: number, rpm: number, trips: number): number =>
  (1000 * sound * angle) / (2 * DEGREES_A_SECOND * rpm * trips);

/** Engine speed, rev/min, at which a pulse is back after so many crank degrees from a pipe of `length` mm: the inverse. */
export const rpmForReturn = (sound: number, angle: number, length: number, trips: number): number =>
  (1000 * sound * angle) / (2 * DEGREES_A_SECOND * length * trips);

/** Crank degrees after its opening at which a rarefaction's front is back at the exhaust valve. mm, m/s, rev/min. */
export const returnAngle = (sound: number, length: number, rpm: number, which: Rarefaction): number =>
  (2 * roundTrips(which) * length * DEGREES_A_SECOND * rpm) / (1000 * sound);

/** Engine speeds, rev/min. */
export interface SpeedBand {
  /** Lowest, rev/min. */
  readonly from: number;
  /** Highest, rev/min. */
  readonly to: number;
}

/** Engine speeds at which a rarefaction's front is back within the overlap, `fromValve` mm. Null without overlap. */
export function returnBand(t: TuningInputs, fromValve: number, which: Rarefaction): SpeedBand | null {
  if (t.overlap <= 0) return null;
  const rpm = (shift: number): number =>
    rpmForReturn(t.soundSpeed, openingToOverlap(t) + shift, fromValve, roundTrips(which));
  return { from: rpm(-t.overlap / 2), to: rpm(t.overlap / 2) };
}

const rule = (which: Rarefaction, name: LengthRule['name'], title: string): LengthRule => ({
  name,
  title,
  formula: `L = a x angle / (12 rpm${which === 1 ? '' : ` x ${roundTrips(which)}`}), angle from exhaust opening to mid-overlap`,
  source: 'elementary acoustics: a pulse runs at the speed of sound and turns its sign at an open end',
  doubt:
    'the front of the pulse is counted, its middle follows tens of degrees later; the gas also moves, and hot blow-down gas is faster',
  inputs: (t) => [
    { name: 'angle', value: openingToOverlap(t), unit: 'deg' },
    INPUT.rpm(t),
    INPUT.temperature(t),
    INPUT.sound(t),
  ],
  fromValve: (t) => lengthForReturn(t.soundSpeed, openingToOverlap(t), t.rpm, roundTrips(which)),
});

/** Primary length by the time at which the first rarefaction is back. */
export const WAVE_RETURN = rule(1, 'wave_return', 'wave return, first rarefaction');

/** Primary length by the time at which the second rarefaction is back, after three round trips. */
export const WAVE_RETURN_SECOND = rule(2, 'wave_return_second', 'wave return, second rarefaction');
