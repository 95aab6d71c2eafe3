import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lowerToTriangle } from '../../../src/geometry/mesh/segment-triangle.js';
import { along, distance, lerp, type Vec3 } from '../../../src/geometry/vec3.js';

function least(p: Vec3, q: Vec3, corners: readonly Vec3[], start = Number.POSITIVE_INFINITY): { d: number; t: number } {
  const best = { squared: start, t: -1 };
  lowerToTriangle(best, ...p, ...q, Float64Array.from(corners.flat()), 0, 3, 6);
  return { d: Math.sqrt(best.squared), t: best.t };
}

/** Distance from a point to the segment a-b. */
function toSegment(p: Vec3, a: Vec3, b: Vec3): number {
  const d: Vec3 = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
  const l = d[0] ** 2 + d[1] ** 2 + d[2] ** 2;
  const t = l === 0 ? 0 : ((p[0] - a[0]) * d[0] + (p[1] - a[1]) * d[1] + (p[2] - a[2]) * d[2]) / l;
  return distance(p, along(a, d, Math.min(1, Math.max(0, t))));
}

const triangle: readonly Vec3[] = [
  [0, 0, 0],
  [10, 0, 0],
  [0, 10, 0],
];

describe('least distance of a segment and a triangle', () => {
  it('is known where an end, an edge, a corner or a piercing is nearest', () => {
    expect(least([2, 2, 3], [2, 2, 9], triangle)).toEqual({ d: 3, t: 0 });
    expect(least([2, 2, 9], [2, 2, 3], triangle)).toEqual({ d: 3, t: 1 });
    expect(least([2, 2, -4], [2, 2, 4], triangle)).toEqual({ d: 0, t: 0.5 });
    expect(least([-3, -5, 4], [-3, 20, 4], triangle).d).toBe(5);
    expect(least([13, 0, 4], [20, 0, 4], triangle)).toEqual({ d: 5, t: 0 });
    expect(least([-5, 3, 2], [25, 3, 2], triangle).d).toBe(2);
    expect(least([-5, 3, 0], [25, 3, 0], triangle).d).toBe(0);
  });

  it('leaves what is nearer already', () => {
    expect(least([2, 2, 3], [2, 2, 9], triangle, 4)).toEqual({ d: 2, t: -1 });
  });

  it('of collapsed triangles is the distance to the line or point they are', () => {
    const line: readonly Vec3[] = [
      [0, 0, 0],
      [10, 0, 0],
      [4, 0, 0],
    ];
    expect(least([5, 3, -5], [5, 3, 5], line).d).toBe(3);
    const point: readonly Vec3[] = [
      [1, 1, 1],
      [1, 1, 1],
      [1, 1, 1],
    ];
    expect(least([1, 4, 5], [1, 4, 5], point).d).toBe(5);
  });

  const coordinate = fc.double({ min: -20, max: 20, noNaN: true });
  const place = fc.tuple(coordinate, coordinate, coordinate);

  it('agrees with fine samples of the triangle, and is there where it says', () => {
    fc.assert(
      fc.property(place, place, place, place, place, (p, q, a, b, c) => {
        const found = least(p, q, [a, b, c]);
        const n = 60;
        let sampled = Number.POSITIVE_INFINITY;
        let there = Number.POSITIVE_INFINITY;
        for (let i = 0; i <= n; i++) {
          for (let j = 0; i + j <= n; j++) {
            const at = [0, 1, 2].map((k) => (a[k]! * i + b[k]! * j + c[k]! * (n - i - j)) / n) as unknown as Vec3;
            sampled = Math.min(sampled, toSegment(at, p, q));
            there = Math.min(there, distance(at, lerp(p, q, found.t)));
          }
        }
        const step = Math.max(distance(a, b), distance(b, c), distance(c, a)) / n;
        expect(found.d).toBeLessThanOrEqual(sampled + 1e-5);
        expect(found.d).toBeGreaterThanOrEqual(sampled - step - 1e-5);
        expect(Math.abs(there - found.d)).toBeLessThanOrEqual(step + 1e-5);
      }),
      { numRuns: 200 },
    );
  });

  it('is the same from either end and whichever corner comes first', () => {
    fc.assert(
      fc.property(place, place, place, place, place, (p, q, a, b, c) => {
        const { d } = least(p, q, [a, b, c]);
        expect(least(q, p, [a, b, c]).d).toBeCloseTo(d, 4);
        expect(least(p, q, [b, c, a]).d).toBeCloseTo(d, 4);
        expect(least(p, q, [c, b, a]).d).toBeCloseTo(d, 4);
      }),
      { numRuns: 500 },
    );
  });
});
