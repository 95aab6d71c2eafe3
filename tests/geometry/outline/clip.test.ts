import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { differenceOf, intersectionOf } from '../../../src/geometry/outline/clip.js';
import { pointToOutline } from '../../../src/geometry/outline/distance.js';
import { ellipseOutline } from '../../../src/geometry/outline/ellipse.js';
import { circleOf, circleOutline, rectangleOutline, slotOutline } from '../../../src/geometry/outline/make.js';
import { outlineArea, perimeter, signedArea } from '../../../src/geometry/outline/measure.js';
import type { Outline } from '../../../src/geometry/outline/outline.js';
import { roundOuterCorners } from '../../../src/geometry/outline/round.js';
import { translateOutline } from '../../../src/geometry/outline/transform.js';
import { sharpestTurn } from '../../../src/geometry/outline/turn.js';
import { validateOutline } from '../../../src/geometry/outline/valid.js';
import { clipperUnionArea } from '../../support/clipper.js';
import { convexOutline } from '../../support/outline-arbitrary.js';

const total = (outlines: readonly Outline[]): number => outlines.reduce((sum, o) => sum + signedArea(o), 0);

describe('known cuts', () => {
  test('the lens of two circles by its closed form', () => {
    const lens = intersectionOf(circleOutline([0, 0], 20), circleOutline([10, 0], 20));
    expect(total(lens)).toBeCloseTo(2 * 100 * Math.acos(0.5) - 5 * Math.sqrt(300), 8);
    expect(lens[0]!.vertices).toHaveLength(2);
  });

  test('a disc bitten out of a square edge', () => {
    const left = differenceOf(rectangleOutline(40, 20), circleOutline([0, 10], 10));
    expect(left).toHaveLength(1);
    expect(total(left)).toBeCloseTo(800 - (Math.PI * 25) / 2, 8);
  });

  test('apart, within, and the same', () => {
    const a = rectangleOutline(40, 20);
    expect(intersectionOf(a, circleOutline([60, 0], 10))).toEqual([]);
    expect(total(differenceOf(a, circleOutline([60, 0], 10)))).toBeCloseTo(800, 9);
    expect(total(intersectionOf(a, circleOutline([0, 0], 10)))).toBeCloseTo(25 * Math.PI, 9);
    expect(differenceOf(a, circleOutline([0, 0], 10))).toHaveLength(2);
    expect(total(intersectionOf(a, a))).toBeCloseTo(800, 9);
    expect(total(differenceOf(a, a))).toBeCloseTo(0, 9);
    expect(total(intersectionOf(a, rectangleOutline(40, 10)))).toBeCloseTo(400, 9);
  });

  test('a bar across cuts a plate in two', () => {
    expect(differenceOf(rectangleOutline(40, 20), rectangleOutline(4, 60)).map(signedArea)).toEqual([
      expect.closeTo(360, 8),
      expect.closeTo(360, 8),
    ]);
  });
});

test('areas add up with the union of another kernel, and results are sound (seed 31)', async () => {
  await fc.assert(
    fc.asyncProperty(convexOutline, convexOutline, async (a, b) => {
      const [common, rest] = [intersectionOf(a, b), differenceOf(a, b)];
      for (const o of [...common, ...rest]) validateOutline(o, { turning: 'either' });
      expect(total(common) + total(rest)).toBeCloseTo(signedArea(a), 4);
      // Chords of 1e-4 mm lose less than 1e-4 mm times the length all round.
      expect(Math.abs(total(rest) + signedArea(b) - (await clipperUnionArea([a, b])))).toBeLessThan(0.05);
    }),
    { seed: 31, numRuns: 60 },
  );
});

describe('ellipses of arcs', () => {
  test.each([
    [20.5, 20, 0.3],
    [40, 20, -1],
    [20, 20, 0],
  ])('half axes %d and %d mm: on the curve within 0.002 mm, tangent, area pi a b', (a, b, way) => {
    const outline = ellipseOutline([5, -3], [a, b], way);
    validateOutline(outline, { leastSide: 0.05 });
    expect(sharpestTurn(outline)).toBeLessThan(1e-6);
    for (let i = 0; i < 360; i++) {
      const t = (i * Math.PI) / 180;
      const [x, y] = [a * Math.cos(t), b * Math.sin(t)];
      const p = [5 + x * Math.cos(way) - y * Math.sin(way), -3 + x * Math.sin(way) + y * Math.cos(way)] as const;
      expect(pointToOutline(p, outline).distance).toBeLessThan(2e-3);
    }
    expect(outlineArea(outline) / (Math.PI * a * b)).toBeCloseTo(1, 5);
    expect(circleOf(outline) !== null).toBe(a === b);
  });
});

test('a slot is two half circles and two straights', () => {
  const slot = slotOutline([3, 4], 15, 9, 0.7);
  expect(signedArea(slot)).toBeCloseTo((Math.PI * 81) / 4 + 6 * 9, 9);
  expect(perimeter(slot)).toBeCloseTo(9 * Math.PI + 12, 9);
  expect(circleOf(slotOutline([0, 0], 9, 9, 1))).toEqual({ centre: [0, 0], diameter: 9 });
});

test('rounding outer corners takes their corners only', () => {
  const bitten = differenceOf(rectangleOutline(40, 20), circleOutline([0, 10], 10))[0]!;
  const round = roundOuterCorners(bitten, 1);
  expect(sharpestTurn(round)).toBeLessThan(1e-6);
  expect(signedArea(roundOuterCorners(rectangleOutline(40, 20), 1))).toBeCloseTo(800 - (4 - Math.PI), 9);
  expect(signedArea(round)).toBeLessThan(signedArea(bitten));
  expect(() => roundOuterCorners(translateOutline(rectangleOutline(40, 1), [0, 0]), 1)).toThrow(/left 0 outlines/);
});
