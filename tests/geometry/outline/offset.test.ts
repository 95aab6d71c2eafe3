import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { outlineToOutline, pointToOutline } from '../../../src/geometry/outline/distance.js';
import { circleOutline, polygonOutline, rectangleOutline } from '../../../src/geometry/outline/make.js';
import { perimeter, signedArea } from '../../../src/geometry/outline/measure.js';
import { offsetOutline, offsetOutlines } from '../../../src/geometry/outline/offset.js';
import type { Outline } from '../../../src/geometry/outline/outline.js';
import { pointAlong, sidesOf } from '../../../src/geometry/outline/sides.js';
import { unionOf } from '../../../src/geometry/outline/union.js';
import { validateOutline } from '../../../src/geometry/outline/valid.js';
import { clipperOffsetArea } from '../../support/clipper.js';
import { convexOutline } from '../../support/outline-arbitrary.js';
import { poses } from '../../support/outline-poses.js';

const bracket = polygonOutline([
  [0, 0],
  [60, 0],
  [60, 20],
  [20, 20],
  [20, 50],
  [0, 50],
]);

describe('closed forms', () => {
  test('out from a convex outline: A + P d + pi d^2 (Steiner)', () => {
    fc.assert(
      fc.property(convexOutline, fc.integer({ min: 1, max: 150 }), (outline, tenths) => {
        const d = tenths / 10;
        const grown = offsetOutline(outline, d);
        validateOutline(grown);
        expect(signedArea(grown)).toBeCloseTo(signedArea(outline) + perimeter(outline) * d + Math.PI * d * d, 6);
        expect(perimeter(grown)).toBeCloseTo(perimeter(outline) + 2 * Math.PI * d, 6);
      }),
      { seed: 9, numRuns: 100 },
    );
  });

  test('in from a rectangle and from a circle', () => {
    expect(signedArea(offsetOutline(rectangleOutline(40, 30), -4))).toBeCloseTo(32 * 22, 9);
    expect(signedArea(offsetOutline(circleOutline([5, 5], 41), -0.8))).toBeCloseTo(Math.PI * 19.7 ** 2, 9);
  });

  test('out from a bracket: one reflex corner stays sharp, five are rounded', () => {
    const d = 3;
    const grown = offsetOutline(bracket, d);
    validateOutline(grown);
    expect(grown.vertices.filter((v) => v.bulge > 0)).toHaveLength(5);
    // Each side moves out by d; five corners add a quarter disc, the reflex one loses a square.
    expect(signedArea(grown)).toBeCloseTo(signedArea(bracket) + 220 * d + (5 * Math.PI * d * d) / 4 - d * d, 8);
  });

  test('in from a bracket: an arc at the reflex corner', () => {
    const d = 3;
    const shrunk = offsetOutline(bracket, -d);
    validateOutline(shrunk);
    expect(shrunk.vertices.filter((v) => v.bulge < 0)).toHaveLength(1);
    expect(signedArea(shrunk)).toBeCloseTo(signedArea(bracket) - 220 * d + 5 * d * d - (Math.PI * d * d) / 4, 8);
  });
});

test('every point of an offset keeps the distance, outward and inward, from unions too (seed 10)', () => {
  fc.assert(
    fc.property(
      fc.array(convexOutline, { minLength: 1, maxLength: 4 }),
      fc.integer({ min: -40, max: 80 }),
      (parts, tenths) => {
        fc.pre(tenths !== 0);
        const d = tenths / 10;
        const given = unionOf(parts);
        const result = offsetOutlines(given, d);
        for (const o of result) {
          validateOutline(o, { turning: 'either' });
          for (const s of sidesOf(o)) {
            for (const t of [0, 0.3, 0.5, 0.9]) {
              const nearest = Math.min(...given.map((g) => pointToOutline(pointAlong(s, t), g).distance));
              expect(nearest).toBeCloseTo(Math.abs(d), 5);
            }
          }
        }
      },
    ),
    { seed: 10, numRuns: 60 },
  );
});

test('agrees with Clipper2 outward and inward (seed 11)', async () => {
  await fc.assert(
    fc.asyncProperty(
      fc.array(convexOutline, { minLength: 1, maxLength: 3 }),
      fc.integer({ min: -30, max: 60 }),
      async (parts, tenths) => {
        const union = unionOf(parts);
        fc.pre(union.length === 1 && tenths !== 0);
        const area = offsetOutlines(union, tenths / 10).reduce((sum, o) => sum + signedArea(o), 0);
        expect(Math.abs(area - (await clipperOffsetArea(union[0]!, tenths / 10)))).toBeLessThan(0.2);
      },
    ),
    { seed: 11, numRuns: 80 },
  );
});

test('out and back again is the same outline, and poses change nothing', () => {
  for (const given of [rectangleOutline(44, 36, 18), rectangleOutline(60, 40, 6), circleOutline([3, 4], 30)]) {
    for (const pose of [given, ...poses(given)]) {
      const back = offsetOutline(offsetOutline(pose, 7), -7);
      expect(signedArea(back)).toBeCloseTo(signedArea(given), 8);
      for (const s of sidesOf(back)) expect(pointToOutline(pointAlong(s, 0.37), pose).distance).toBeLessThan(1e-9);
    }
  }
});

test('what is left of nothing', () => {
  expect(offsetOutlines([circleOutline([0, 0], 10)], -6)).toEqual([]);
  expect(() => offsetOutline(circleOutline([0, 0], 10), -6)).toThrow(/nothing/);
  expect(() => offsetOutline(bracket, Number.NaN)).toThrow(RangeError);
});

test('a waist narrower than twice the offset parts in two', () => {
  const dumbbell = unionOf([circleOutline([0, 0], 40), circleOutline([60, 0], 40), rectangleAt()])[0]!;
  expect(offsetOutlines([dumbbell], -4)).toHaveLength(2);
  expect(() => offsetOutline(dumbbell, -4)).toThrow(/2 pieces/);
});

function rectangleAt(): Outline {
  return polygonOutline([
    [0, -3],
    [60, -3],
    [60, 3],
    [0, 3],
  ]);
}

test('an offset hole keeps its wall', () => {
  const hole = rectangleOutline(44, 36, 18);
  expect(outlineToOutline(hole, offsetOutline(hole, 8)).distance).toBeCloseTo(8, 9);
});
