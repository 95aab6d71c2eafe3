import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { circleOutline, rectangleOutline } from '../../../src/geometry/outline/make.js';
import { signedArea } from '../../../src/geometry/outline/measure.js';
import type { Outline } from '../../../src/geometry/outline/outline.js';
import { mirrorOutline, rotateOutline, translateOutline } from '../../../src/geometry/outline/transform.js';
import { unionOf } from '../../../src/geometry/outline/union.js';
import { validateOutline } from '../../../src/geometry/outline/valid.js';
import { clipperUnionArea } from '../../support/clipper.js';
import { convexOutline } from '../../support/outline-arbitrary.js';
import { startAt } from '../../support/outline-poses.js';

const totalArea = (outlines: readonly Outline[]): number => outlines.reduce((sum, o) => sum + signedArea(o), 0);

describe('known unions', () => {
  test('two circles through each other: sum less the lens, arcs kept, no needless splits', () => {
    const joined = unionOf([circleOutline([0, 0], 20), circleOutline([10, 0], 20)]);
    const lens = 2 * 100 * Math.acos(0.5) - 5 * Math.sqrt(300);
    expect(joined).toHaveLength(1);
    expect(signedArea(joined[0]!)).toBeCloseTo(200 * Math.PI - lens, 8);
    expect(joined[0]!.vertices.every((v) => v.bulge > 0)).toBe(true);
    expect(joined[0]!.vertices.length).toBeLessThanOrEqual(4);
  });

  test('squares edge to edge become one rectangle of four sides', () => {
    const square = rectangleOutline(10, 10);
    const joined = unionOf([square, translateOutline(square, [10, 0])]);
    expect(joined).toHaveLength(1);
    expect(joined[0]!.vertices).toHaveLength(4);
    expect(signedArea(joined[0]!)).toBeCloseTo(200, 9);
  });

  test('a ring of bars leaves its hole, clockwise', () => {
    const bar = rectangleOutline(60, 10);
    const up = rotateOutline(bar, 0, 1);
    const ring = [
      translateOutline(bar, [0, 25]),
      translateOutline(bar, [0, -25]),
      translateOutline(up, [25, 0]),
      translateOutline(up, [-25, 0]),
    ];
    const joined = unionOf(ring)
      .map(signedArea)
      .sort((a, b) => a - b);
    expect(joined).toEqual([expect.closeTo(-1600, 8), expect.closeTo(3600, 8)]);
  });

  test('one circle, a circle within a circle, and circles apart', () => {
    const small = circleOutline([0, 0], 8);
    expect(totalArea(unionOf([small]))).toBeCloseTo(16 * Math.PI, 9);
    expect(totalArea(unionOf([small, circleOutline([1, 0], 20)]))).toBeCloseTo(100 * Math.PI, 9);
    expect(unionOf([small, circleOutline([30, 0], 8)])).toHaveLength(2);
  });

  test('a bar tangent to the circles at its ends', () => {
    const joined = unionOf([
      circleOutline([0, 0], 20),
      circleOutline([50, 0], 20),
      translateOutline(rectangleOutline(50, 20), [25, 0]),
    ]);
    expect(joined).toHaveLength(1);
    expect(signedArea(joined[0]!)).toBeCloseTo(1000 + 100 * Math.PI, 8);
    expect(joined[0]!.vertices).toHaveLength(4);
  });
});

test('agrees with Clipper2 on polygons of fine chords, and is sound (seed 7)', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(convexOutline, { minLength: 1, maxLength: 6 }), async (outlines) => {
      const joined = unionOf(outlines);
      for (const o of joined) validateOutline(o, { turning: 'either' });
      const area = totalArea(joined);
      // Chords of 1e-4 mm lose less than 1e-4 mm times the length all round, at most 6 x 190 mm here.
      expect(Math.abs(area - (await clipperUnionArea(outlines)))).toBeLessThan(0.12);
    }),
    { seed: 7, numRuns: 120 },
  );
});

test('order, start, quarter turns and mirror do not change the area (seed 8)', () => {
  fc.assert(
    fc.property(fc.array(convexOutline, { minLength: 2, maxLength: 5 }), (outlines) => {
      const area = totalArea(unionOf(outlines));
      const ways: readonly (readonly Outline[])[] = [
        [...outlines].reverse(),
        outlines.map((o) => startAt(o, 1)),
        outlines.map((o) => rotateOutline(o, 0, 1)),
        outlines.map(mirrorOutline),
      ];
      for (const way of ways) expect(totalArea(unionOf(way))).toBeCloseTo(area, 6);
    }),
    { seed: 8, numRuns: 60 },
  );
});
