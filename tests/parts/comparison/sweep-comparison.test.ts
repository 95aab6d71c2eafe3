import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { stretchesOf, sweepFigures } from '../../../src/parts/comparison/sweep-comparison.js';
import { sweepOf } from '../../support/sweep-of.js';

const row = (...values: readonly number[]) => values.map((value, i) => ({ rpm: 1000 * (i + 1), value }));

describe('where which of two is better', () => {
  test('the lower one is, and they change where the lines cross', () => {
    expect(stretchesOf(row(1, 2, 5), row(3, 3, 3))).toEqual([
      { from: 1000, to: expect.closeTo(2000 + 1000 / 3, 9), better: 'first' },
      { from: expect.closeTo(2000 + 1000 / 3, 9), to: 3000, better: 'second' },
    ]);
  });
  test('one that never changes is one stretch; equal ones are none', () => {
    expect(stretchesOf(row(1, 2), row(3, 4))).toEqual([{ from: 1000, to: 2000, better: 'first' }]);
    expect(stretchesOf(row(1, 2), row(1, 2))).toEqual([]);
  });
  test('stretches follow each other and swap with the two', () => {
    const values = fc.array(fc.integer({ min: -9, max: 9 }), { minLength: 6, maxLength: 6 });
    fc.assert(
      fc.property(values, values, (a, b) => {
        const there = stretchesOf(row(...a), row(...b));
        const back = stretchesOf(row(...b), row(...a));
        expect(back.map((s) => [s.from, s.to])).toEqual(there.map((s) => [s.from, s.to]));
        there.forEach((s, i) => {
          expect(s.to).toBeGreaterThanOrEqual(s.from);
          if (i > 0) expect(s.from).toBe(there[i - 1]!.to);
          expect(back[i]!.better).not.toBe(s.better);
        });
      }),
    );
  });
  test('other engine speeds are refused', () => {
    expect(() => stretchesOf(row(1, 2), row(1, 2, 3))).toThrow(/same engine speeds/);
  });
});

describe('the figures of a sweep', () => {
  test('are means over cylinders and speeds', () => {
    const { mean, speeds, tuned } = sweepFigures(
      sweepOf('as routed', [
        { rpm: 3000, overlap: 4, pumping: 20, work: 600 },
        { rpm: 6000, overlap: -10, pumping: 60, work: 500 },
      ]),
    );
    expect(mean).toEqual({ overlap: -3000, pumping: 40, charging: 0.9, work: 550 });
    expect(speeds[0]!.pulse).toBeNull();
    expect(tuned!.draws).toEqual([{ from: expect.closeTo(3000 + (3000 * 4) / 14, 6), to: 6000 }]);
  });
  test('energy at a turbine is the sum of its inlets', () => {
    const { speeds } = sweepFigures(sweepOf('as routed', [{ rpm: 3000, overlap: 0, pumping: 1, work: 1 }], 120));
    expect(speeds[0]).toMatchObject({ pulse: 120, steady: 120 });
  });
});
