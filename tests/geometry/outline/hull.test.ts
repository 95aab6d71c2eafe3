import fc from 'fast-check';
import { expect, test } from 'vitest';
import { hullOf } from '../../../src/geometry/outline/hull.js';
import { circleOutline, rectangleOutline } from '../../../src/geometry/outline/make.js';
import { perimeter, signedArea } from '../../../src/geometry/outline/measure.js';
import { isConvex, sharpestTurn } from '../../../src/geometry/outline/turn.js';
import { uncoveredArea } from '../../../src/geometry/outline/union.js';
import { validateOutline } from '../../../src/geometry/outline/valid.js';
import { convexOutline } from '../../support/outline-arbitrary.js';
import { poses } from '../../support/outline-poses.js';

test('two equal circles make an oval', () => {
  const hull = hullOf([circleOutline([0, 0], 20), circleOutline([50, 0], 20)]);
  expect(signedArea(hull)).toBeCloseTo(1000 + 100 * Math.PI, 9);
  expect(hull.vertices).toHaveLength(4);
});

test('two circles make an open belt: length 2 d sin a + r (pi - 2b) ..., from the belt formula', () => {
  // Open belt over pulleys (machine design textbooks, from memory): L = 2 sqrt(c^2 - (R - r)^2) + pi (R + r) + 2 (R - r) asin((R - r) / c).
  const [R, r, c] = [28, 12, 70];
  const hull = hullOf([circleOutline([0, 0], 2 * R), circleOutline([0, c], 2 * r)]);
  const belt = 2 * Math.sqrt(c * c - (R - r) ** 2) + Math.PI * (R + r) + 2 * (R - r) * Math.asin((R - r) / c);
  expect(perimeter(hull)).toBeCloseTo(belt, 9);
  expect(sharpestTurn(hull)).toBeLessThan(1e-9);
});

test('a convex outline is its own hull', () => {
  fc.assert(
    fc.property(convexOutline, (outline) => {
      const hull = hullOf([outline]);
      expect(signedArea(hull)).toBeCloseTo(signedArea(outline), 6);
      expect(perimeter(hull)).toBeCloseTo(perimeter(outline), 6);
    }),
    { seed: 13, numRuns: 100 },
  );
});

test('is convex, covers all and no smaller belt would: poses agree (seed 14)', () => {
  fc.assert(
    fc.property(fc.array(convexOutline, { minLength: 2, maxLength: 4 }), (outlines) => {
      const hull = hullOf(outlines);
      validateOutline(hull);
      expect(isConvex(hull)).toBe(true);
      expect(uncoveredArea([hull, ...outlines])).toBeCloseTo(signedArea(hull), 5);
      const ways = outlines.map(poses);
      for (const i of poses(hull).keys())
        expect(signedArea(hullOf(ways.map((w) => w[i]!)))).toBeCloseTo(signedArea(hull), 5);
    }),
    { seed: 14, numRuns: 80 },
  );
});

test('squares on one line: the corners between are left out', () => {
  const hull = hullOf([
    rectangleOutline(10, 10),
    { vertices: rectangleOutline(10, 10).vertices.map((v) => ({ ...v, x: v.x + 30 })) },
  ]);
  expect(hull.vertices).toHaveLength(4);
  expect(() => hullOf([])).toThrow(RangeError);
});
