import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Spline, splinePoints } from '../../../src/geometry/curve/spline.js';
import { pointToOutline } from '../../../src/geometry/outline/distance.js';
import { polygonOutline } from '../../../src/geometry/outline/make.js';
import type { Vec2 } from '../../../src/geometry/vec2.js';

/** Basis functions by the recursion of Cox and de Boor as textbooks print it, slow and plain. */
function basis(knots: readonly number[], i: number, degree: number, t: number): number {
  if (degree === 0) return t >= knots[i]! && t < knots[i + 1]! ? 1 : 0;
  const [a, b, c, d] = [knots[i]!, knots[i + degree]!, knots[i + 1]!, knots[i + degree + 1]!];
  const left = b > a ? ((t - a) / (b - a)) * basis(knots, i, degree - 1, t) : 0;
  const right = d > c ? ((d - t) / (d - c)) * basis(knots, i + 1, degree - 1, t) : 0;
  return left + right;
}

function pointOf({ degree, knots, points, weights }: Spline, t: number): Vec2 {
  let [x, y, w] = [0, 0, 0];
  points.forEach((p, i) => {
    const share = basis(knots, i, degree, t) * (weights[i] ?? 1);
    x += share * p[0];
    y += share * p[1];
    w += share;
  });
  return [x / w, y / w];
}

const coordinate = fc.integer({ min: -50, max: 50 });
const spline: fc.Arbitrary<Spline> = fc
  .record({
    degree: fc.integer({ min: 1, max: 4 }),
    points: fc.array(fc.tuple(coordinate, coordinate), { minLength: 5, maxLength: 9 }),
    steps: fc.array(fc.integer({ min: 0, max: 3 }), { minLength: 16, maxLength: 16 }),
    heavy: fc.boolean(),
    clamped: fc.boolean(),
  })
  .map(({ degree, points, steps, heavy, clamped }) => {
    const count = points.length + degree + 1;
    let at = 0;
    const knots = Array.from({ length: count }, (_, i) => {
      const held = clamped && (i <= degree || i > points.length);
      if (i > 0 && !held) at += 1 + steps[i]!;
      return at;
    });
    return { degree, points, knots, weights: heavy ? points.map((_, i) => 1 + (steps[i]! * 2) / 3) : [] };
  });

describe('a spline as points', () => {
  test('lies within the error of the curve, by the recursion of Cox and de Boor', () => {
    fc.assert(
      fc.property(spline, fc.constantFrom(0.002, 0.05), (s, error) => {
        const points = splinePoints(s, error, 20_000);
        const chain = polygonOutline([...points, ...[...points].reverse().slice(1, -1)]);
        const [low, high] = [s.knots[s.degree]!, s.knots[s.points.length]!];
        for (let i = 0; i < 60; i++) {
          const p = pointOf(s, low + ((high - low) * i) / 60);
          expect(pointToOutline(p, chain).distance).toBeLessThanOrEqual(error * (1 + 1e-6) + 1e-9);
        }
        expect(Math.hypot(points[0]![0] - pointOf(s, low)[0], points[0]![1] - pointOf(s, low)[1])).toBeLessThan(1e-9);
      }),
      { numRuns: 60, seed: 12 },
    );
  });

  test('of degree 1 is its control polygon', () => {
    const points: Vec2[] = [
      [0, 0],
      [10, 0],
      [10, 7],
    ];
    expect(splinePoints({ degree: 1, knots: [0, 0, 1, 2, 2], points, weights: [] }, 0.01, 99)).toEqual(points);
  });

  test('more points than allowed are refused', () => {
    const s = {
      degree: 2,
      knots: [0, 0, 0, 1, 1, 1],
      points: [
        [0, 0],
        [500, 900],
        [1000, 0],
      ] as Vec2[],
      weights: [],
    };
    expect(() => splinePoints(s, 0.0001, 100)).toThrow('it takes more than 100 points to follow within 0.0001 mm');
  });
});
