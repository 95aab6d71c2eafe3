import fc from 'fast-check';
import { expect, test } from 'vitest';
import { filletInnerCorners } from '../../../src/geometry/outline/fillet.js';
import { circleOutline, polygonOutline, rectangleOutline } from '../../../src/geometry/outline/make.js';
import { signedArea } from '../../../src/geometry/outline/measure.js';
import { offsetOutline } from '../../../src/geometry/outline/offset.js';
import { sidesOf } from '../../../src/geometry/outline/sides.js';
import { translateOutline } from '../../../src/geometry/outline/transform.js';
import { sharpestTurn } from '../../../src/geometry/outline/turn.js';
import { uncoveredArea, unionOf } from '../../../src/geometry/outline/union.js';
import { validateOutline } from '../../../src/geometry/outline/valid.js';
import { convexOutline } from '../../support/outline-arbitrary.js';

test('the inner corner of a bracket gains what a square has over a quarter disc; outer corners stay sharp', () => {
  const bracket = polygonOutline([
    [0, 0],
    [60, 0],
    [60, 20],
    [20, 20],
    [20, 50],
    [0, 50],
  ]);
  const filleted = filletInnerCorners(bracket, 6);
  expect(signedArea(filleted) - signedArea(bracket)).toBeCloseTo((1 - Math.PI / 4) * 36, 8);
  const arcs = sidesOf(filleted).filter((s) => s.kind === 'arc');
  expect(arcs).toHaveLength(1);
  expect(arcs[0]).toMatchObject({
    radius: expect.closeTo(6, 9),
    centre: [expect.closeTo(26, 9), expect.closeTo(26, 9)],
  });
});

test('two bosses a hand apart are joined by arcs of the fillet radius', () => {
  const pair = unionOf([circleOutline([0, 0], 30), circleOutline([28, 0], 30)])[0]!;
  const filleted = filletInnerCorners(pair, 10);
  expect(sharpestTurn(filleted)).toBeLessThan(1e-9);
  const inner = sidesOf(filleted).filter((s) => s.kind === 'arc' && s.sweep < 0);
  expect(inner).toHaveLength(2);
  // Centre of a circle of 10 mm tangent to two of 15 mm whose centres are 28 mm apart: sqrt(25^2 - 14^2) off the line.
  for (const s of inner)
    expect(s).toMatchObject({
      radius: expect.closeTo(10, 8),
      centre: [expect.closeTo(14, 7), expect.closeTo(Math.sign(s.from[1]) * Math.sqrt(429), 7)],
    });
});

test('a slot narrower than the fillet is filled, a wider one is rounded in its corners', () => {
  const fork = (width: number) =>
    unionOf([
      rectangleOutline(20, 60),
      translateOutline(rectangleOutline(20, 60), [20 + width, 0]),
      polygonOutline([
        [-10, -40],
        [30 + width, -40],
        [30 + width, -30],
        [-10, -30],
      ]),
    ])[0]!;
  const narrow = filletInnerCorners(fork(8), 5);
  expect(signedArea(narrow) - signedArea(fork(8))).toBeGreaterThan(8 * 55);
  const wide = filletInnerCorners(fork(12.5), 6);
  expect(signedArea(wide) - signedArea(fork(12.5))).toBeCloseTo(2 * (1 - Math.PI / 4) * 36, 6);
});

test('covers what was given, is tangent all round, and a second time changes nothing (seed 12)', () => {
  fc.assert(
    fc.property(
      fc.array(convexOutline, { minLength: 2, maxLength: 5 }),
      fc.integer({ min: 2, max: 12 }),
      (parts, radius) => {
        const joined = unionOf(parts.map((o) => offsetOutline(o, 6))).filter((o) => signedArea(o) > 0);
        fc.pre(joined.length === 1);
        const filleted = filletInnerCorners(joined[0]!, radius);
        validateOutline(filleted);
        expect(uncoveredArea([filleted, joined[0]!])).toBeCloseTo(signedArea(filleted), 5);
        expect(signedArea(filletInnerCorners(filleted, radius))).toBeCloseTo(signedArea(filleted), 4);
        for (const s of sidesOf(filleted))
          if (s.kind === 'arc' && s.sweep < 0) expect(s.radius).toBeGreaterThan(radius - 1e-5);
      },
    ),
    { seed: 12, numRuns: 60 },
  );
});

test('no radius, no change; a negative one is refused', () => {
  const square = rectangleOutline(10, 10);
  expect(filletInnerCorners(square, 0)).toBe(square);
  expect(() => filletInnerCorners(square, -1)).toThrow(RangeError);
});
