import fc from 'fast-check';
import { expect, test } from 'vitest';
import { biarc } from '../../../src/geometry/outline/biarc.js';
import { pointToOutline } from '../../../src/geometry/outline/distance.js';
import { hullOf } from '../../../src/geometry/outline/hull.js';
import { circleOutline } from '../../../src/geometry/outline/make.js';
import type { Outline } from '../../../src/geometry/outline/outline.js';
import { directionAlong, pointAlong, sideLength, sidesOf } from '../../../src/geometry/outline/sides.js';
import { smoothOutline } from '../../../src/geometry/outline/smooth.js';
import { sharpestTurn } from '../../../src/geometry/outline/turn.js';
import { validateOutline } from '../../../src/geometry/outline/valid.js';
import { distance2 } from '../../../src/geometry/vec2.js';

const angle = fc.double({ min: -1.2, max: 1.2, noNaN: true });

test('a biarc leaves and meets its headings and is tangent in the middle (seed 15)', () => {
  fc.assert(
    fc.property(angle, angle, fc.double({ min: 0.1, max: 80, noNaN: true }), (a, b, l) => {
      const [first, second] = biarc(
        { point: [0, 0], direction: [Math.cos(a), Math.sin(a)] },
        { point: [l, 0], direction: [Math.cos(b), Math.sin(b)] },
      );
      const off = (p: readonly [number, number], angleOf: number): number =>
        distance2(p, [Math.cos(angleOf), Math.sin(angleOf)]);
      expect(off(directionAlong(first, 0), a)).toBeLessThan(1e-7);
      expect(off(directionAlong(second, 1), b)).toBeLessThan(1e-7);
      expect(distance2(directionAlong(first, 1), directionAlong(second, 0))).toBeLessThan(1e-7);
      expect(first.to).toEqual(second.from);
    }),
    { seed: 15, numRuns: 200 },
  );
});

test('headings on one line give a straight run; one point twice is refused', () => {
  const sides = biarc({ point: [0, 0], direction: [1, 0] }, { point: [10, 0], direction: [1, 0] });
  expect(sides.map((s) => s.kind)).toEqual(['line', 'line']);
  expect(() => biarc({ point: [1, 1], direction: [1, 0] }, { point: [1, 1], direction: [1, 0] })).toThrow(RangeError);
});

/** An oval with a third disc that lifts its upper straight by a hair: there an arc of about `short` mm joins two lines. */
const ovalWithShortArc = (short: number): Outline =>
  hullOf([circleOutline([0, 0], 40), circleOutline([30, short * 0.75], 40), circleOutline([60, 0], 40)]);

test.each([0.001, 0.01, 0.04])('a side of %d mm goes, and the outline moves by no more than it', (short) => {
  const given = ovalWithShortArc(short);
  expect(Math.min(...sidesOf(given).map(sideLength))).toBeLessThan(0.05);
  const smooth = smoothOutline(given, 0.05);
  validateOutline(smooth, { leastSide: 0.05 });
  expect(sharpestTurn(smooth)).toBeLessThan(1e-6);
  for (const s of sidesOf(smooth)) {
    for (const t of [0, 0.5]) expect(pointToOutline(pointAlong(s, t), given).distance).toBeLessThan(short);
  }
});

test('an outline without short sides is left alone', () => {
  const given = ovalWithShortArc(2);
  expect(smoothOutline(given, 0.05)).toBe(given);
});

test('a kink of a ten-thousandth is drawn round, a corner of a degree is left', () => {
  const bent = (rise: number): Outline => ({
    vertices: [
      { x: 0, y: -20, bulge: 0 },
      { x: 30, y: -20 - rise, bulge: 0 },
      { x: 60, y: -20, bulge: 1 },
      { x: 60, y: 20, bulge: 0 },
      { x: 0, y: 20, bulge: 1 },
    ],
  });
  const kinked = bent(30e-4 / 2);
  expect(sharpestTurn(kinked)).toBeCloseTo(1e-4, 6);
  const smooth = smoothOutline(kinked, 0.1);
  expect(sharpestTurn(smooth)).toBeLessThan(1e-6);
  for (const s of sidesOf(smooth)) expect(pointToOutline(s.from, kinked).distance).toBeLessThan(1e-4);
  const corner = bent(0.5);
  expect(smoothOutline(corner, 0.1)).toBe(corner);
});
