import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { outlineToOutline, pointToOutline, sideToSide } from '../../../src/geometry/outline/distance.js';
import { circleOutline, rectangleOutline } from '../../../src/geometry/outline/make.js';
import { arcAbout, pointAlong, type Side } from '../../../src/geometry/outline/sides.js';
import { translateOutline } from '../../../src/geometry/outline/transform.js';
import { distance2 } from '../../../src/geometry/vec2.js';
import { poses } from '../../support/outline-poses.js';

describe('closed forms', () => {
  test('two circles apart, one in the other, and crossing', () => {
    const big = circleOutline([0, 0], 40);
    expect(outlineToOutline(big, circleOutline([30, 40], 20)).distance).toBeCloseTo(50 - 30, 12);
    expect(outlineToOutline(big, circleOutline([5, 0], 10)).distance).toBeCloseTo(10, 12);
    expect(outlineToOutline(big, circleOutline([20, 0], 10)).distance).toBe(0);
  });

  test('an oval beside an oval: the places lie on both', () => {
    const oval = rectangleOutline(44, 36, 18);
    const nearest = outlineToOutline(oval, translateOutline(oval, [92, 0]));
    expect(nearest.distance).toBeCloseTo(48, 12);
    expect(distance2(nearest.from, nearest.to)).toBeCloseTo(48, 12);
    expect(pointToOutline(nearest.from, oval).distance).toBeCloseTo(0, 9);
  });

  test('a round hole off the corner of a square', () => {
    const nearest = outlineToOutline(rectangleOutline(20, 20), circleOutline([13, 14], 4));
    expect(nearest).toMatchObject({ distance: expect.closeTo(3, 12), from: [10, 10] });
  });

  test('a point inside measures to the wall', () => {
    expect(pointToOutline([3, 0], circleOutline([0, 0], 20)).distance).toBeCloseTo(7, 12);
  });
});

const coordinate = fc.integer({ min: -30, max: 30 });
const side: fc.Arbitrary<Side> = fc
  .record({
    arc: fc.boolean(),
    x: coordinate,
    y: coordinate,
    u: coordinate,
    v: coordinate,
    r: fc.integer({ min: 1, max: 20 }),
    sweep: fc.double({ min: -6, max: 6, noNaN: true }),
  })
  .filter(({ x, y, u, v, sweep }) => (x !== u || y !== v) && Math.abs(sweep) > 0.1)
  .map(({ arc, x, y, u, v, r, sweep }) =>
    arc ? arcAbout([x, y], r, u, sweep) : { kind: 'line', from: [x, y], to: [u, v] },
  );

test('never above any sampled pair of points, never far below, and the same both ways', () => {
  fc.assert(
    fc.property(side, side, (a, b) => {
      const found = sideToSide(a, b);
      const steps = Array.from({ length: 61 }, (_, i) => i / 60);
      const sampled = Math.min(
        ...steps.flatMap((s) => steps.map((t) => distance2(pointAlong(a, s), pointAlong(b, t)))),
      );
      expect(found.distance).toBeLessThanOrEqual(sampled + 1e-9);
      // Between samples a point is at most half a step of either side away: 85 mm and 120 mm at most, in 60 steps.
      expect(found.distance).toBeGreaterThan(sampled - (85 + 120) / 120);
      expect(sideToSide(b, a).distance).toBeCloseTo(found.distance, 9);
      expect(distance2(found.from, found.to)).toBeCloseTo(found.distance, 9);
    }),
    { seed: 6, numRuns: 300 },
  );
});

test('poses of a pair keep their distance', () => {
  const a = rectangleOutline(44, 36, 18);
  const b = translateOutline(rectangleOutline(20, 10, 2), [50, 20]);
  const expected = outlineToOutline(a, b).distance;
  for (const [i, pose] of poses(a).entries())
    expect(outlineToOutline(pose, poses(b)[i]!).distance).toBeCloseTo(expected, 9);
});
