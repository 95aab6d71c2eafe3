import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { flattenOutline } from '../../../src/geometry/outline/flatten.js';
import { circleOf, circleOutline, rectangleOutline, splitArcs } from '../../../src/geometry/outline/make.js';
import { outlineArea, outlineBounds, perimeter, signedArea } from '../../../src/geometry/outline/measure.js';
import { sidesOf } from '../../../src/geometry/outline/sides.js';
import { reverseOutline, rotateOutline, translateOutline } from '../../../src/geometry/outline/transform.js';
import { distance2 } from '../../../src/geometry/vec2.js';
import { convexOutline } from '../../support/outline-arbitrary.js';
import { poses } from '../../support/outline-poses.js';

describe('closed forms', () => {
  test('circle', () => {
    const circle = circleOutline([7, -3], 40);
    expect(signedArea(circle)).toBeCloseTo(400 * Math.PI, 9);
    expect(perimeter(circle)).toBeCloseTo(40 * Math.PI, 9);
    expect(outlineBounds(circle)).toEqual({
      from: [expect.closeTo(-13, 9), expect.closeTo(-23, 9)],
      to: [expect.closeTo(27, 9), expect.closeTo(17, 9)],
    });
  });

  test('oval of 44 x 36 mm', () => {
    const oval = rectangleOutline(44, 36, 18);
    expect(signedArea(oval)).toBeCloseTo(8 * 36 + Math.PI * 18 * 18, 9);
    expect(perimeter(oval)).toBeCloseTo(16 + 36 * Math.PI, 9);
  });

  test('rounded rectangle', () => {
    const plate = rectangleOutline(60, 30, 5);
    expect(signedArea(plate)).toBeCloseTo(1800 - (4 - Math.PI) * 25, 9);
    expect(perimeter(plate)).toBeCloseTo(2 * (50 + 20) + 10 * Math.PI, 9);
  });

  test('three quarters of a circle, an arc beyond a half turn', () => {
    const pie = {
      vertices: [
        { x: 10, y: 0, bulge: Math.tan((3 * Math.PI) / 8) },
        { x: 0, y: -10, bulge: 0 },
        { x: 0, y: 0, bulge: 0 },
      ],
    };
    expect(signedArea(pie)).toBeCloseTo(75 * Math.PI, 9);
    expect(outlineBounds(pie)).toEqual({
      from: [expect.closeTo(-10), expect.closeTo(-10)],
      to: [expect.closeTo(10), expect.closeTo(10)],
    });
  });
});

test('an arc that does not reach an extreme is bounded by its ends', () => {
  const h = Math.SQRT1_2 * 10;
  const cap = {
    vertices: [
      { x: h, y: h, bulge: Math.SQRT2 - 1 },
      { x: -h, y: h, bulge: 0 },
    ],
  };
  expect(outlineBounds(cap)).toEqual({
    from: [expect.closeTo(-h, 9), expect.closeTo(h, 9)],
    to: [expect.closeTo(h, 9), expect.closeTo(10, 9)],
  });
});

test('poses keep area and length, running backwards changes the sign of area only', () => {
  fc.assert(
    fc.property(convexOutline, (outline) => {
      const area = signedArea(outline);
      for (const pose of poses(outline)) {
        expect(signedArea(pose)).toBeCloseTo(area, 8);
        expect(perimeter(pose)).toBeCloseTo(perimeter(outline), 8);
      }
      expect(signedArea(reverseOutline(outline))).toBeCloseTo(-area, 8);
    }),
    { seed: 2, numRuns: 60 },
  );
});

test('bounds turn and move with the outline', () => {
  fc.assert(
    fc.property(convexOutline, (outline) => {
      const { from, to } = outlineBounds(outline);
      const moved = outlineBounds(translateOutline(rotateOutline(outline, 0, 1), [3, 4]));
      expect(moved.from[0]).toBeCloseTo(3 - to[1], 8);
      expect(moved.to[1]).toBeCloseTo(4 + to[0], 8);
      expect(from[0]).toBeLessThan(to[0]);
    }),
    { seed: 3, numRuns: 40 },
  );
});

describe('flattening', () => {
  test('keeps to the chord error and to all vertices, and loses no more area than that allows', () => {
    fc.assert(
      fc.property(convexOutline, fc.constantFrom(0.5, 0.05, 0.001), (outline, chord) => {
        const points = flattenOutline(outline, chord);
        for (const v of outline.vertices) expect(points.some((p) => p[0] === v.x && p[1] === v.y)).toBe(true);
        const polygon = { vertices: points.map(([x, y]) => ({ x, y, bulge: 0 })) };
        const lost = outlineArea(outline) - outlineArea(polygon);
        expect(lost).toBeGreaterThanOrEqual(-1e-9);
        expect(lost).toBeLessThanOrEqual(chord * perimeter(outline));
        for (const [i, s] of sidesOf(polygon).entries()) {
          const middle: readonly [number, number] = [(s.from[0] + s.to[0]) / 2, (s.from[1] + s.to[1]) / 2];
          const sagitta = (arc: { centre: readonly [number, number]; radius: number }): number =>
            arc.radius - distance2(arc.centre, middle);
          const arcs = sidesOf(outline).filter((o) => o.kind === 'arc');
          const straight = sidesOf(outline).some((o) => o.kind === 'line' && distance2(o.from, s.from) < 1e-9);
          if (!straight)
            expect(Math.min(...arcs.map(sagitta).map(Math.abs)), `chord ${i}`).toBeLessThanOrEqual(chord * (1 + 1e-9));
        }
      }),
      { seed: 4, numRuns: 40 },
    );
  });

  test('refuses a chord error of nothing', () => {
    expect(() => flattenOutline(circleOutline([0, 0], 10), 0)).toThrow(RangeError);
  });
});

test('a circle is known for one however it is cut, an oval is not', () => {
  expect(circleOf(splitArcs(circleOutline([5, 6], 9), Math.PI / 2))).toEqual({
    centre: [expect.closeTo(5, 9), expect.closeTo(6, 9)],
    diameter: expect.closeTo(9, 9),
  });
  expect(circleOf(rectangleOutline(44, 36, 18))).toBeNull();
});

test('split arcs enclose the same and turn no more than asked', () => {
  const split = splitArcs(circleOutline([1, 2], 30), Math.PI / 2);
  expect(split.vertices).toHaveLength(4);
  expect(signedArea(split)).toBeCloseTo(225 * Math.PI, 9);
  for (const v of split.vertices) expect(v.bulge).toBeCloseTo(Math.SQRT2 - 1, 12);
});

test('a rectangle refuses corners that do not fit', () => {
  expect(() => rectangleOutline(20, 10, 6)).toThrow(RangeError);
});
