import fc from 'fast-check';
import { expect, test } from 'vitest';
import { outlineCentroid } from '../../../src/geometry/outline/centroid.js';
import { polygonOutline } from '../../../src/geometry/outline/make.js';
import type { Outline } from '../../../src/geometry/outline/outline.js';
import { reverseOutline, translateOutline } from '../../../src/geometry/outline/transform.js';
import { convexOutline } from '../../support/outline-arbitrary.js';

test('a half circle has its centre 4 r / 3 pi from its flat: textbooks of statics', () => {
  const half: Outline = {
    vertices: [
      { x: -20, y: 0, bulge: 0 },
      { x: 20, y: 0, bulge: 1 },
    ],
  };
  for (const o of [half, reverseOutline(half)]) {
    expect(outlineCentroid(o)[0]).toBeCloseTo(0, 12);
    expect(outlineCentroid(o)[1]).toBeCloseTo((4 * 20) / (3 * Math.PI), 12);
  }
});

test('a rectangle less a half circle, by the sums of its parts', () => {
  const bitten: Outline = {
    vertices: [
      { x: 0, y: 0, bulge: 0 },
      { x: 40, y: 0, bulge: 0 },
      { x: 40, y: 30, bulge: 0 },
      { x: 30, y: 30, bulge: -1 },
      { x: 10, y: 30, bulge: 0 },
      { x: 0, y: 30, bulge: 0 },
    ],
  };
  const lost = (Math.PI * 100) / 2;
  const y = (1200 * 15 - lost * (30 - 40 / (3 * Math.PI))) / (1200 - lost);
  const [cx, cy] = outlineCentroid(bitten);
  expect(cx).toBeCloseTo(20, 12);
  expect(cy).toBeCloseTo(y, 12);
});

test('shapes with a middle have their centre there, wherever they stand', () => {
  fc.assert(
    fc.property(convexOutline, (o) => {
      const [x, y] = outlineCentroid(o);
      const mid = o.vertices.reduce(
        (s, v) => [s[0]! + v.x / o.vertices.length, s[1]! + v.y / o.vertices.length],
        [0, 0],
      );
      expect(x).toBeCloseTo(mid[0]!, 8);
      expect(y).toBeCloseTo(mid[1]!, 8);
      const moved = outlineCentroid(translateOutline(o, [700, -300]));
      expect(moved[0]).toBeCloseTo(x + 700, 8);
      expect(moved[1]).toBeCloseTo(y - 300, 8);
    }),
  );
});

test('no area, no centre', () => {
  expect(() =>
    outlineCentroid(
      polygonOutline([
        [0, 0],
        [9, 0],
      ]),
    ),
  ).toThrow('an outline without area has no centre');
});
