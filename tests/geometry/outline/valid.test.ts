import { describe, expect, test } from 'vitest';
import { circleOutline, polygonOutline, rectangleOutline } from '../../../src/geometry/outline/make.js';
import { reverseOutline } from '../../../src/geometry/outline/transform.js';
import { sharpestTurn } from '../../../src/geometry/outline/turn.js';
import { validateOutline } from '../../../src/geometry/outline/valid.js';

describe('sound outlines pass', () => {
  test.each([
    ['circle', circleOutline([0, 0], 9)],
    ['oval', rectangleOutline(44, 36, 18)],
    ['square', rectangleOutline(10, 10)],
  ])('%s', (_, outline) => {
    expect(() => validateOutline(outline)).not.toThrow();
    expect(() => validateOutline(reverseOutline(outline), { turning: 'clockwise' })).not.toThrow();
    expect(() => validateOutline(reverseOutline(outline))).toThrow(/other way/);
  });
});

describe('faults are named', () => {
  test('a figure of eight', () => {
    expect(() =>
      validateOutline(
        polygonOutline([
          [0, 0],
          [20, 20],
          [20, 0],
          [0, 12],
        ]),
        { turning: 'either' },
      ),
    ).toThrow(/meet at/);
  });

  test('an arc that bulges through another side', () => {
    const vertices = [
      { x: 0, y: 0, bulge: 0 },
      { x: 20, y: 0, bulge: 0 },
      { x: 20, y: 5, bulge: -1 },
      { x: 0, y: 5, bulge: 0 },
    ];
    expect(() => validateOutline({ vertices }, { turning: 'either' })).toThrow(/meet at/);
  });

  test('a side run twice', () => {
    expect(() =>
      validateOutline(
        polygonOutline([
          [0, 0],
          [10, 0],
          [10, 10],
          [10, 0],
          [20, -20],
        ]),
        { turning: 'either' },
      ),
    ).toThrow(/meet at/);
  });

  test('numbers that are none, short sides, too few vertices, a repeated first vertex', () => {
    expect(() =>
      validateOutline({
        vertices: [
          { x: Number.NaN, y: 0, bulge: 0 },
          { x: 1, y: 0, bulge: 1 },
        ],
      }),
    ).toThrow(/not finite/);
    expect(() => validateOutline(rectangleOutline(10, 10, 4.99), { leastSide: 0.05 })).toThrow(/mm long/);
    expect(() => validateOutline({ vertices: [{ x: 0, y: 0, bulge: 1 }] })).toThrow(/two vertices/);
    expect(() =>
      validateOutline(
        polygonOutline([
          [0, 0],
          [9, 0],
          [9, 9],
          [0, 0],
        ]),
      ),
    ).toThrow(/mm long/);
  });
});

test('the sharpest turn is zero for tangent sides and the corner for a square', () => {
  expect(sharpestTurn(rectangleOutline(44, 36, 18))).toBeLessThan(1e-12);
  expect(sharpestTurn(rectangleOutline(44, 36))).toBeCloseTo(Math.PI / 2, 12);
});
