import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { radians } from '../../../src/geometry/angle.js';
import { centreOfMass, standOf } from '../../../src/geometry/mesh/stand.js';
import { depthInHull, pointHull } from '../../../src/geometry/outline/point-hull.js';
import { evaluate, hullOfPoints, type Solid, union } from '../../../src/geometry/solid/solid.js';
import { bar, box } from '../../../src/geometry/solid/solid-shapes.js';
import type { Vec2 } from '../../../src/geometry/vec2.js';

const stand = (solid: Solid, limit = 50) => standOf(evaluate(solid), radians(limit));

describe('how a mesh stands', () => {
  it('a box: all of its underside, steady by half its shorter side, nothing leans out', () => {
    const found = stand(box([0, 0, 0], [30, 20, 10]));
    expect(found.foot).toBeCloseTo(600, 6);
    expect(found.steady).toBeCloseTo(10, 6);
    expect(found.overhang).toBe(0);
  });

  it('a table: the underside of its top leans out, its legs do not', () => {
    const table = union(box([-2, -2, 0], [2, 2, 10]), box([-10, -10, 9.9], [10, 10, 12]));
    expect(stand(table).overhang).toBeCloseTo(400 - 16, 3);
    expect(stand(table).foot).toBeCloseTo(16, 6);
  });

  it('a funnel leans out by its angle: only past the limit does it count', () => {
    // 40 degrees from upright
    const funnel = bar(10, 0, 20, 10 + 20 * Math.tan(radians(40)));
    expect(stand(funnel, 45).overhang).toBe(0);
    const [r, R] = [10, 10 + 20 * Math.tan(radians(40))];
    const cone = Math.PI * (r + R) * Math.hypot(20, R - r);
    expect(Math.abs(stand(funnel, 39).overhang / cone - 1)).toBeLessThan(0.01);
  });

  it('tips when its middle of mass is not over its foot', () => {
    const leaning = union(box([0, 0, 0], [10, 10, 10]), box([0, 0, 9], [80, 10, 30]));
    expect(stand(leaning).steady).toBeLessThan(0);
    expect(
      stand(
        hullOfPoints([
          [0, 0, 0],
          [0, 10, 10],
          [10, 0, 10],
          [-10, -10, 10],
        ]),
      ).steady,
    ).toBe(-Infinity);
  });

  it('has its middle of mass where boxes of known places have it', () => {
    const [x, y, z] = centreOfMass(evaluate(union(box([0, 0, 0], [10, 10, 10]), box([20, 0, 0], [30, 10, 20]))));
    // 1000 mm3 at (5, 5, 5) and 2000 mm3 at (25, 5, 10)
    expect(x).toBeCloseTo((5 + 2 * 25) / 3, 4);
    expect(y).toBeCloseTo(5, 4);
    expect(z).toBeCloseTo((5 + 2 * 10) / 3, 4);
  });
});

describe('hull of points', () => {
  const point = fc.tuple(fc.integer({ min: -50, max: 50 }), fc.integer({ min: -50, max: 50 }));

  it('holds every point, turns left at every corner, and its corners are points', () => {
    fc.assert(
      fc.property(fc.array(point, { minLength: 1, maxLength: 40 }), (points) => {
        const hull = pointHull(points);
        if (hull.length < 3) return;
        for (const p of points) expect(depthInHull(hull, p)).toBeGreaterThanOrEqual(-1e-9);
        hull.forEach((b, i) => {
          const [a, c] = [hull.at(i - 1)!, hull[(i + 1) % hull.length]!];
          expect((b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])).toBeGreaterThan(0);
          expect(points.some((p: Vec2) => p[0] === b[0] && p[1] === b[1])).toBe(true);
        });
      }),
    );
  });
});
