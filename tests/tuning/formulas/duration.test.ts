import { describe, expect, test } from 'vitest';
import {
  DURATION_BORE,
  DURATION_LENGTH,
  durationInches,
  SPLIT_421,
  TAILPIPE,
} from '../../../src/tuning/formulas/duration.js';
import { INCH } from '../../../src/tuning/formulas/rule.js';
import { lengthForReturn } from '../../../src/tuning/formulas/wave-return.js';
import { inputsOf } from './tuning-inputs-of.js';

// the rules are from memory, their attribution unverified; the numbers were computed apart from this program by the same rules
describe('rules by the exhaust period, against numbers computed apart', () => {
  test.each([
    [80, 6500, 500, 31.0, 1.6106],
    [70, 6000, 500, 32.417, 1.5781],
    [60, 5500, 400, 34.091, 1.3793],
  ])('opening %d deg, %d rev/min, %d cm3: P %d in, ID %d in', (opens, rpm, cc, inches, bore) => {
    const t = inputsOf({ exhaustOpens: opens, exhaustPeriod: 180 + opens, rpm, cylinder: cc * 1000 });
    expect(DURATION_LENGTH.fromValve(t) / INCH).toBeCloseTo(inches, 3);
    expect(DURATION_BORE.value(t) / INCH).toBeCloseTo(bore, 4);
  });

  test('4-2-1 and tailpipe at 80 deg, 6500 rev/min, 500 cm3: 15, 16.00, 2.1183 and 2.1693 in', () => {
    const t = inputsOf();
    expect(SPLIT_421.first.value(t) / INCH).toBe(15);
    expect(SPLIT_421.second.value(t) / INCH).toBeCloseTo(16, 2);
    expect(SPLIT_421.secondBore.value(t) / INCH).toBeCloseTo(2.1183, 4);
    expect(TAILPIPE.bore.value(t) / INCH).toBeCloseTo(2.1693, 4);
    expect(TAILPIPE.length.value(t) / INCH).toBeCloseTo(34, 3);
  });

  test('the constant 850 is a wave of 1700 ft/s whose round trip takes half the period', () => {
    const sound = 1700 * 0.3048;
    const t = inputsOf();
    expect(lengthForReturn(sound, t.exhaustPeriod / 2, t.rpm, 1) / INCH).toBeCloseTo(durationInches(t) + 3, 9);
  });

  test('length falls with engine speed and grows with an earlier opening; the bore goes with the root of the cylinder', () => {
    for (let rpm = 3000; rpm < 12000; rpm += 500) {
      expect(durationInches({ exhaustPeriod: 250, rpm: rpm + 500 })).toBeLessThan(
        durationInches({ exhaustPeriod: 250, rpm }),
      );
      expect(durationInches({ exhaustPeriod: 260, rpm })).toBeGreaterThan(durationInches({ exhaustPeriod: 250, rpm }));
    }
    const ratio = DURATION_BORE.value(inputsOf({ cylinder: 1_000_000 })) / DURATION_BORE.value(inputsOf());
    expect(ratio).toBeCloseTo(Math.SQRT2, 12);
  });
});
