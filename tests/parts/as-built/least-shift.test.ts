import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dot, length, unit, type Vec3 } from '../../../src/geometry/vec3.js';
import { leastShift, type Movable, shiftOf } from '../../../src/parts/as-built/least-shift.js';

const sum = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0);
const along = (direction: Vec3, room = 50): Movable => ({ direction, room });

describe('changes of straights', () => {
  it('leave the end where it is with four straights that point four ways', () => {
    const straights = [along([1, 0, 0]), along([0, 1, 0]), along([0, 0, 1]), along(unit([-1, -1, -1]))];
    const changes = leastShift(straights, -3)!;
    expect(sum(changes)).toBeCloseTo(-3, 9);
    expect(length(shiftOf(straights, changes, [0, 0, 0]))).toBeLessThan(0.01);
  });

  it('are halved between two straights that run against each other', () => {
    const straights = [along([0, 1, 0]), along([0, -1, 0])];
    expect(leastShift(straights, -4)).toEqual([-2, -2].map((x) => expect.closeTo(x, 6)));
  });

  it('move the end by themselves on one straight, and undo a straight cut wrong', () => {
    expect(leastShift([along([1, 0, 0])], -2)).toEqual([expect.closeTo(-2, 9)]);
    const straights = [along([1, 0, 0]), along([0, 1, 0])];
    // the second is 3 mm too long
    expect(leastShift(straights, -3, [0, 3, 0])).toEqual([0, -3].map((x) => expect.closeTo(x, 3)));
  });

  it('are refused where there is no room', () => {
    expect(leastShift([along([1, 0, 0], 1), along([0, 1, 0], 1)], -3)).toBeNull();
    expect(leastShift([], 1)).toBeNull();
    expect(leastShift([along([1, 0, 0], 1), along([0, 1, 0], 2)], -3)).toEqual(
      [-1, -2].map((x) => expect.closeTo(x, 9)),
    );
  });

  it('of random tubes sum to what is wanted, keep their room, and no other found moves the end less', () => {
    const component = fc.double({ min: -1, max: 1, noNaN: true });
    const direction = fc
      .tuple(component, component, component)
      .filter((v) => Math.hypot(...v) > 0.2)
      .map((v) => unit(v));
    const straight = fc.record({ direction, room: fc.double({ min: 0, max: 20, noNaN: true }) });
    const other = fc.array(fc.double({ min: -5, max: 5, noNaN: true }), { minLength: 5, maxLength: 5 });
    fc.assert(
      fc.property(
        fc.array(straight, { minLength: 1, maxLength: 5 }),
        fc.double({ min: -10, max: 10, noNaN: true }),
        other,
        (straights, total, moves) => {
          const changes = leastShift(straights, total);
          const room = sum(straights.map((s) => s.room));
          if (changes === null) {
            expect(-total).toBeGreaterThan(room);
            return;
          }
          expect(Math.abs(sum(changes) - total)).toBeLessThan(1e-6);
          changes.forEach((x, i) => {
            expect(x).toBeGreaterThanOrEqual(-straights[i]!.room - 1e-6);
          });
          if (changes.some((x, i) => x <= -straights[i]!.room + 1e-6)) return;
          // where no straight is at its least: another set of changes with the same sum is no better
          const mean = sum(moves.slice(0, changes.length)) / changes.length;
          const tried = changes.map((x, i) => x + moves[i]! - mean);
          const worth = (x: readonly number[]): number => {
            const end = shiftOf(straights, x, [0, 0, 0]);
            return dot(end, end) + 1e-4 * sum(x.map((v) => v * v));
          };
          expect(worth(changes)).toBeLessThanOrEqual(worth(tried) + 1e-6);
        },
      ),
      { numRuns: 300 },
    );
  });
});
