import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { endCorrection } from '../../../src/tuning/formulas/end-correction.js';
import { LENGTH_RULE_LIST } from '../../../src/tuning/formulas/length-rules.js';
import { QUARTER_WAVE } from '../../../src/tuning/formulas/quarter-wave.js';
import {
  lengthForReturn,
  returnAngle,
  roundTrips,
  rpmForReturn,
  WAVE_RETURN,
  WAVE_RETURN_SECOND,
} from '../../../src/tuning/formulas/wave-return.js';
import { BURNED, soundSpeed } from '../../../src/tuning/gas/gas.js';
import { inputsOf } from './tuning-inputs-of.js';

describe('a stopped pipe', () => {
  /** Length, mm, whose first trough is back half a period of `hertz` after the pulse; the engine's speed cancels. */
  const lengthOf = (sound: number, hertz: number): number =>
    lengthForReturn(sound, (6 * 1000) / (2 * hertz), 1000, roundTrips(1));

  // worked examples of school and university pages
  test('of 2.0 m at 343 m/s sounds at 42.9 Hz, of 126 Hz at 340 m/s is 0.6746 m long', () => {
    expect(lengthOf(343, 42.875)).toBeCloseTo(2000, 9);
    expect(lengthOf(340, 126)).toBeCloseTo(674.6, 1);
  });
  // computed apart from this program: 0.6133 r of Levine & Schwinger (1948), 0.82 r flanged
  test('of 0.5 m and 20 mm radius at 343.2 m/s: 171.60 Hz bare, 167.49 unflanged, 166.14 flanged', () => {
    expect(lengthOf(343.2, 171.6)).toBeCloseTo(500, 9);
    expect(lengthOf(343.2, 167.49) - endCorrection(20)).toBeCloseTo(500, 1);
    expect(lengthOf(343.2, 166.14) - endCorrection(20, true)).toBeCloseTo(500, 0);
  });
});

describe('waves that come back', () => {
  const speeds = fc.double({ min: 350, max: 700, noNaN: true });
  const lengths = fc.double({ min: 300, max: 2500, noNaN: true });
  const turns = fc.double({ min: 2000, max: 12000, noNaN: true });

  test('angle and engine speed are each other undone, for either rarefaction', () => {
    fc.assert(
      fc.property(speeds, lengths, turns, fc.constantFrom(1 as const, 2 as const), (sound, length, rpm, which) => {
        const angle = returnAngle(sound, length, rpm, which);
        expect(rpmForReturn(sound, angle, length, 2 * which - 1)).toBeCloseTo(rpm, 6);
      }),
    );
  });

  test('at the length of the rule the front is back in the middle of the overlap', () => {
    const t = inputsOf({ exhaustOpens: 60, overlapMiddle: 4 });
    expect(returnAngle(t.soundSpeed, WAVE_RETURN.fromValve(t), t.rpm, 1)).toBeCloseTo(244, 9);
    expect(returnAngle(t.soundSpeed, WAVE_RETURN_SECOND.fromValve(t), t.rpm, 2)).toBeCloseTo(244, 9);
    expect(WAVE_RETURN.fromValve(t) / WAVE_RETURN_SECOND.fromValve(t)).toBeCloseTo(3, 12);
  });

  test('the quarter wave takes its end correction off', () => {
    const [thin, wide] = [
      QUARTER_WAVE.fromValve(inputsOf({ tubeBore: 20 })),
      QUARTER_WAVE.fromValve(inputsOf({ tubeBore: 40 })),
    ];
    expect(thin - wide).toBeCloseTo(6.133, 9);
  });

  test('by hand: 575 m/s, 260 deg, 6500 rev/min: 1.917 m', () => {
    // 260 deg last 260 / 39000 s = 6.6667 ms; half of 575 m/s times that
    expect(WAVE_RETURN.fromValve(inputsOf())).toBeCloseTo(1916.667, 3);
  });
});

describe.each(LENGTH_RULE_LIST.map((r) => [r.name, r] as const))('%s', (_, rule) => {
  test('falls with engine speed, grows with the exhaust period', () => {
    const at = (rpm: number, opens: number) =>
      rule.fromValve(inputsOf({ rpm, exhaustOpens: opens, exhaustPeriod: 180 + opens }));
    expect(at(7000, 70)).toBeLessThan(at(6500, 70));
    expect(at(6500, 75)).toBeGreaterThan(at(6500, 70));
  });

  test('never falls with the temperature of the gas, and says its source, doubt and inputs', () => {
    const at = (kelvin: number) =>
      rule.fromValve(inputsOf({ gasTemperature: kelvin, soundSpeed: soundSpeed(BURNED, kelvin) }));
    expect(at(1000)).toBeGreaterThanOrEqual(at(800));
    if (rule.name !== 'duration') expect(at(1000)).toBeGreaterThan(at(800));
    expect(rule.inputs(inputsOf()).length).toBeGreaterThan(1);
    expect(rule.source.length * rule.doubt.length).toBeGreaterThan(0);
  });
});
