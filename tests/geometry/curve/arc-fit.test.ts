import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fitArcs, fitClosedArcs } from '../../../src/geometry/curve/arc-fit.js';
import { pointToOutline } from '../../../src/geometry/outline/distance.js';
import { circleOutline, polygonOutline, rectangleOutline } from '../../../src/geometry/outline/make.js';
import { outlineArea } from '../../../src/geometry/outline/measure.js';
import type { Outline } from '../../../src/geometry/outline/outline.js';
import { outlineOfSides, pointAlong, sideLength, sidesOf } from '../../../src/geometry/outline/sides.js';
import { validateOutline } from '../../../src/geometry/outline/valid.js';
import type { Vec2 } from '../../../src/geometry/vec2.js';
import { noisyPoints, randomFrom } from '../../support/noisy-points.js';
import { convexOutline } from '../../support/outline-arbitrary.js';

const TOLERANCE = 0.02;

/** Largest distance of the points from an outline, and of that outline from the polygon of the points, by dense samples, mm. */
function apart(points: readonly Vec2[], fitted: Outline): { readonly points: number; readonly curve: number } {
  const polygon = polygonOutline(points);
  const samples = sidesOf(fitted).flatMap((s) => Array.from({ length: 60 }, (_, i) => pointAlong(s, i / 60)));
  const most = (of: readonly Vec2[], from: Outline) =>
    of.reduce((m, p) => Math.max(m, pointToOutline(p, from).distance), 0);
  return { points: most(points, fitted), curve: most(samples, polygon) };
}

const D: Outline = {
  vertices: [
    { x: -20, y: -15, bulge: 0 },
    { x: 20, y: -15, bulge: 0 },
    { x: 20, y: -3, bulge: 1 },
    { x: -20, y: -3, bulge: 0 },
  ],
};

const SHAPES: readonly (readonly [string, Outline, number])[] = [
  ['circle', circleOutline([0, 0], 40), 3],
  ['oval', rectangleOutline(44, 36, 18), 6],
  ['D', D, 9],
  ['rounded rectangle', rectangleOutline(44, 30, 6), 12],
];

describe('400 points of a port', () => {
  test.each(SHAPES)(
    '%s with 0.005 mm of noise: a dozen lines and arcs at most, within 0.02 mm both ways',
    (_, shape, most) => {
      for (const seed of [1, 2, 3]) {
        const points = noisyPoints(shape, 400, 0.005, seed);
        const { sides, deviation } = fitClosedArcs(points, TOLERANCE);
        const fitted = outlineOfSides(sides);
        validateOutline(fitted);
        expect(sides.length).toBeLessThanOrEqual(most);
        const off = apart(points, fitted);
        expect(off.points).toBeLessThanOrEqual(TOLERANCE);
        expect(off.curve).toBeLessThanOrEqual(TOLERANCE);
        expect(deviation).toBeCloseTo(off.points, 6);
        expect(outlineArea(fitted)).toBeCloseTo(outlineArea(shape), -1);
        expect(Math.abs(outlineArea(fitted) / outlineArea(shape) - 1)).toBeLessThan(0.001);
      }
    },
  );

  test('the same for points of random ports, begun anywhere, run either way', () => {
    fc.assert(
      fc.property(
        convexOutline,
        fc.integer({ min: 1, max: 1e6 }),
        fc.nat(399),
        fc.boolean(),
        (shape, seed, first, back) => {
          const all = noisyPoints(shape, 400, 0.005, seed);
          const turned = [...all.slice(first), ...all.slice(0, first)];
          const points = back ? turned.reverse() : turned;
          const { sides } = fitClosedArcs(points, TOLERANCE);
          expect(sides.length).toBeLessThanOrEqual(24);
          const off = apart(points, outlineOfSides(sides));
          expect(off.points).toBeLessThanOrEqual(TOLERANCE);
          expect(off.curve).toBeLessThanOrEqual(TOLERANCE);
        },
      ),
      { numRuns: 12, seed: 400 },
    );
  });
});

describe('what is kept', () => {
  test('every side ends at a given point, and the ends of an open run are its own', () => {
    const points = noisyPoints(D, 200, 0.01, 7);
    const { sides } = fitArcs(points, TOLERANCE);
    expect(sides[0]!.from).toEqual(points[0]);
    expect(sides.at(-1)!.to).toEqual(points.at(-1));
    for (const s of sides) expect(points).toContainEqual(s.from);
    sides.slice(1).forEach((s, i) => {
      expect(s.from).toEqual(sides[i]!.to);
    });
  });

  test('corners: a square of four points, and one of many, stay square', () => {
    const square: Vec2[] = [
      [0, 0],
      [30, 0],
      [30, 30],
      [0, 30],
    ];
    const four = fitClosedArcs(square, TOLERANCE);
    expect(four.sides.map((s) => s.kind)).toEqual(['line', 'line', 'line', 'line']);
    const many = sidesOf(polygonOutline(square)).flatMap((s) =>
      Array.from({ length: 50 }, (_, i) => pointAlong(s, i / 50)),
    );
    const fitted = fitClosedArcs(many, TOLERANCE);
    expect(fitted.sides).toHaveLength(4);
    expect(outlineArea(outlineOfSides(fitted.sides))).toBeCloseTo(900, 6);
  });

  test('polygons too coarse to be a curve: a hexagon stays one', () => {
    const hexagon = Array.from(
      { length: 6 },
      (_, i): Vec2 => [20 * Math.cos((i * Math.PI) / 3), 20 * Math.sin((i * Math.PI) / 3)],
    );
    expect(fitClosedArcs(hexagon, TOLERANCE).sides.every((s) => s.kind === 'line')).toBe(true);
  });

  test('a circle of 36 points, as far apart as a probe puts them, is taken for the circle it is', () => {
    const points = noisyPoints(circleOutline([3, 4], 40), 36, 0, 1);
    const { sides, deviation } = fitClosedArcs(points, TOLERANCE);
    expect(sides.length).toBeLessThanOrEqual(3);
    expect(deviation).toBeLessThan(1e-9);
    expect(outlineArea(outlineOfSides(sides))).toBeCloseTo(Math.PI * 400, 6);
  });

  test('lines stay lines however noisy', () => {
    const random = randomFrom(5);
    const points = Array.from({ length: 300 }, (_, i): Vec2 => [i / 5, (random() - 0.5) * 0.02]);
    const { sides } = fitArcs(points, TOLERANCE);
    expect(sides).toHaveLength(1);
    expect(sides[0]!.kind).toBe('line');
  });

  test('an exact arc of any sweep to 270 degrees comes back as that arc', () => {
    for (const sweep of [0.3, 1, 3, 4.5]) {
      const points = Array.from(
        { length: 120 },
        (_, i): Vec2 => [7 + 18 * Math.cos(1 + (sweep * i) / 119), 18 * Math.sin(1 + (sweep * i) / 119)],
      );
      for (const run of [points, [...points].reverse()]) {
        const { sides } = fitArcs(run, TOLERANCE);
        expect(sides).toHaveLength(1);
        const [arc] = sides;
        expect(arc!.kind === 'arc' && arc!.radius).toBeCloseTo(18, 2);
        expect(sideLength(arc!)).toBeCloseTo(18 * sweep, 2);
      }
    }
  });
});

describe('limits', () => {
  test('random points never fail: at worst a line from each to the next', () => {
    const point = fc.tuple(fc.integer({ min: -99, max: 99 }), fc.integer({ min: -99, max: 99 }));
    fc.assert(
      fc.property(fc.uniqueArray(point, { minLength: 3, maxLength: 40, selector: String }), (points) => {
        const { sides, deviation } = fitClosedArcs(points, TOLERANCE);
        expect(sides.length).toBeLessThanOrEqual(points.length);
        expect(deviation).toBeLessThanOrEqual(TOLERANCE * (1 + 1e-6));
      }),
      { numRuns: 100, seed: 8 },
    );
  });

  test('20,000 points take seconds, not minutes', () => {
    const points = noisyPoints(rectangleOutline(44, 30, 6), 20_000, 0.005, 3);
    const start = performance.now();
    expect(fitClosedArcs(points, TOLERANCE).sides.length).toBeLessThanOrEqual(14);
    expect(performance.now() - start).toBeLessThan(30_000);
  });

  test('too few points, or no tolerance, are refused', () => {
    expect(() => fitArcs([[0, 0]], 0.02)).toThrow('a fit needs two points and a tolerance, got 1 and 0.02 mm');
    expect(() =>
      fitArcs(
        [
          [0, 0],
          [1, 0],
        ],
        0,
      ),
    ).toThrow(RangeError);
    expect(() =>
      fitClosedArcs(
        [
          [0, 0],
          [1, 0],
        ],
        0.02,
      ),
    ).toThrow('a closed run needs three points, got 2');
  });
});
