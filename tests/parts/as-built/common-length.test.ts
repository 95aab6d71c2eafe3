import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { commonLength, type Shortenable } from '../../../src/parts/as-built/common-length.js';

const tube = (length: number, room = 100): Shortenable => ({ length, room });
const near = (...values: readonly number[]) => values.map((v) => expect.closeTo(v, 9));

describe('the common length', () => {
  it('is reached by cutting the one that is too long', () => {
    expect(commonLength([tube(760), tube(763), tube(760.5)], 1).changes).toEqual(near(0, -2, 0));
  });

  it('is reached by letting a piece into the one that is too short, rather than cutting all others', () => {
    expect(commonLength([tube(755), tube(760), tube(760), tube(760.5)], 1).changes).toEqual(near(4.5, 0, 0, 0));
  });

  it('cuts rather than lets in where that is as few welds', () => {
    expect(commonLength([tube(760), tube(763)], 1).changes).toEqual(near(0, -2));
  });

  it('lets in where there is no room to cut', () => {
    expect(commonLength([tube(760), tube(763, 1.5)], 1).changes).toEqual(near(2, 0));
  });

  it('of random tubes holds them all, with no more work than any other', () => {
    const work = (changes: readonly number[]): number =>
      changes.reduce((sum, c) => sum + Math.abs(c) + (c > 1e-9 ? 20 : c < -1e-9 ? 10 : 0), 0);
    const tenths = (max: number) => fc.integer({ min: 0, max: 10 * max }).map((x) => x / 10);
    const any = fc.record({ length: tenths(12), room: tenths(5) });
    fc.assert(
      fc.property(fc.array(any, { minLength: 1, maxLength: 6 }), fc.constantFrom(0, 0.5, 1), (tubes, width) => {
        const { from, to, changes } = commonLength(tubes, width);
        expect(to - from).toBeCloseTo(width, 9);
        tubes.forEach(({ length, room }, i) => {
          expect(length + changes[i]!).toBeGreaterThanOrEqual(from - 1e-9);
          expect(length + changes[i]!).toBeLessThanOrEqual(to + 1e-9);
          expect(-changes[i]!).toBeLessThanOrEqual(room + 1e-9);
        });
        for (let low = -6; low <= 14; low += 0.1) {
          const tried = tubes.map(({ length }) => Math.min(0, low + width - length) + Math.max(0, low - length));
          if (tried.some((c, i) => -c > tubes[i]!.room)) continue;
          expect(work(changes)).toBeLessThanOrEqual(work(tried) + 1e-6);
        }
      }),
      { numRuns: 200 },
    );
  });
});
