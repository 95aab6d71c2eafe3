import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pathFromPolygon, polygonLength } from '../../../src/geometry/path/control-polygon.js';
import { endOf, headingAt, partOfPath, pathLength, startOf } from '../../../src/geometry/path/path.js';
import { distance, dot } from '../../../src/geometry/vec3.js';
import { bendIsSound, pathGaps, polygonFromPath, reversePath } from '../../support/path-soundness.js';
import { arbitraryTube } from '../../support/random-path.js';

describe('a path of straights and arcs', () => {
  it('is tangent-continuous, meets both ends and has the closed-form length', () => {
    fc.assert(
      fc.property(arbitraryTube, (polygon) => {
        const path = pathFromPolygon(polygon);
        const gaps = pathGaps(path);
        expect(gaps.place).toBeLessThan(1e-8);
        expect(gaps.direction).toBeLessThan(1e-9);
        expect(distance(startOf(path).point, polygon.points[0]!)).toBeLessThan(1e-12);
        expect(distance(endOf(path).point, polygon.points.at(-1)!)).toBeLessThan(1e-8);
        expect(pathLength(path)).toBeCloseTo(polygonLength(polygon), 8);
        expect(path.segments.every((s) => s.kind === 'straight' || bendIsSound(s))).toBe(true);
      }),
    );
  });

  it('has the same points when read back from its own segments', () => {
    fc.assert(
      fc.property(arbitraryTube, (polygon) => {
        // halves of one bend, and bends whose tangents meet far away, have another polygon of the same path
        const path = pathFromPolygon(polygon);
        const bends = path.segments.flatMap((s) => (s.kind === 'bend' ? [s.angle] : []));
        fc.pre(bends.length === polygon.clr.length && bends.every((a) => a < 2.8));
        const again = polygonFromPath(path);
        expect(again.points.length).toBe(polygon.points.length);
        for (const [i, p] of again.points.entries()) expect(distance(p, polygon.points[i]!)).toBeLessThan(1e-6);
      }),
    );
  });

  it('is the same run backwards, end for end', () => {
    fc.assert(
      fc.property(arbitraryTube, fc.double({ min: 0, max: 1, noNaN: true }), (polygon, share) => {
        const path = pathFromPolygon(polygon);
        const back = reversePath(path);
        const total = pathLength(path);
        expect(pathLength(back)).toBeCloseTo(total, 9);
        const there = headingAt(path, share * total);
        const here = headingAt(back, (1 - share) * total);
        expect(distance(there.point, here.point)).toBeLessThan(1e-7);
        expect(dot(there.direction, here.direction)).toBeCloseTo(-1, 9);
      }),
    );
  });

  it('is the sum of its parts wherever it is cut', () => {
    fc.assert(
      fc.property(arbitraryTube, fc.double({ min: 0.01, max: 0.99, noNaN: true }), (polygon, share) => {
        const path = pathFromPolygon(polygon);
        const total = pathLength(path);
        const a = partOfPath(path, 0, share * total);
        const b = partOfPath(path, share * total, total);
        expect(pathLength(a) + pathLength(b)).toBeCloseTo(total, 8);
        expect(distance(endOf(a).point, startOf(b).point)).toBeLessThan(1e-7);
        expect(distance(endOf(b).point, endOf(path).point)).toBeLessThan(1e-7);
      }),
    );
  });

  it('leaves out points where it does not turn', () => {
    const path = pathFromPolygon({
      points: [
        [0, 0, 0],
        [50, 0, 0],
        [100, 0, 0],
      ],
      clr: [40],
    });
    expect(path.segments).toHaveLength(1);
    expect(pathLength(path)).toBe(100);
  });

  it('refuses bends that overlap, naming by how much', () => {
    const polygon = {
      points: [
        [0, 0, 0],
        [30, 0, 0],
        [30, 200, 0],
      ] as const,
      clr: [63.5],
    };
    expect(() => pathFromPolygon(polygon)).toThrow(/bends overlap by 33\.500 mm between points 0 and 1/);
  });

  it('refuses a turn straight back', () => {
    const polygon = {
      points: [
        [0, 0, 0],
        [300, 0, 0],
        [0, 0, 0],
      ] as const,
      clr: [0],
    };
    expect(() => pathFromPolygon(polygon)).toThrow(/turns back on itself|overlap/);
  });
});
