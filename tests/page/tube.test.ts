import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pathFromPolygon } from '../../src/geometry/path/control-polygon.js';
import { headingAt, pathLength } from '../../src/geometry/path/path.js';
import { add, cross, distance, dot, length, scale, sub, type Vec3 } from '../../src/geometry/vec3.js';
import { nearestRun, onTrueSkin } from '../../src/page/view/skin-point.js';
import { pathOf, stationAt } from '../../src/page/view/tube-path.js';
import { placeAlong } from '../../src/page/view/tube-place.js';
import { SKIN_ERROR, tubeSkin } from '../../src/page/view/tube-skin.js';
import { pathGaps } from '../support/path-soundness.js';
import { arbitraryTube } from '../support/random-path.js';
import { tubeOf } from '../support/scene-tube.js';

/** 100 mm straight, a quarter turn of 60 mm radius, 100 mm straight. */
const elbow = tubeOf({
  points: [
    [0, 0, 0],
    [0, 0, 160],
    [0, -160, 160],
  ],
  clr: [60],
});
const stepped = tubeOf(
  {
    points: [
      [0, 0, 0],
      [0, 0, 160],
      [0, -160, 160],
    ],
    clr: [60],
  },
  40,
);
const QUARTER = (60 * Math.PI) / 2;

describe('the path of a tube of a scene', () => {
  it('is the path it was made of, point by point', () => {
    fc.assert(
      fc.property(arbitraryTube, fc.double({ min: 0, max: 1, noNaN: true }), (polygon, part) => {
        const given = pathFromPolygon(polygon);
        const path = pathOf(tubeOf(polygon));
        const run = part * pathLength(given);
        expect(pathLength(path)).toBeCloseTo(pathLength(given), 6);
        expect(distance(headingAt(path, run).point, headingAt(given, run).point)).toBeLessThan(1e-6);
        expect(pathGaps(path).direction).toBeLessThan(1e-6);
      }),
    );
  });

  it('carries a normal square to its way without twist', () => {
    fc.assert(
      fc.property(arbitraryTube, fc.double({ min: 0, max: 1, noNaN: true }), (polygon, part) => {
        const path = pathOf(tubeOf(polygon));
        const { direction, normal } = stationAt(path, part * pathLength(path));
        expect(Math.abs(dot(direction, normal))).toBeLessThan(1e-9);
        expect(length(normal)).toBeCloseTo(1, 9);
      }),
    );
  });
});

describe('a place along a tube', () => {
  it('tells section, bend and piece', () => {
    expect(placeAlong(elbow, 50)).toMatchObject({
      run: 50,
      bend: null,
      outerRadius: 21,
      innerRadius: 19.5,
      piece: '1A',
    });
    expect(placeAlong(elbow, 100 + QUARTER / 2).bend).toEqual({ clr: 60, angle: expect.closeTo(Math.PI / 2, 9) });
    expect(placeAlong(elbow, 50).area).toBeCloseTo(Math.PI * 19.5 ** 2, 9);
    expect(placeAlong(elbow, 3).piece).toBeNull();
    const middle = placeAlong(elbow, 100 + QUARTER / 2).point;
    expect(distance(middle, [0, -60 + 60 * Math.SQRT1_2, 100 + 60 * Math.SQRT1_2])).toBeLessThan(1e-9);
  });

  it('is held at the ends, and grows with the tube', () => {
    expect(placeAlong(elbow, -5)).toMatchObject({ run: 0, point: [0, 0, 0] });
    expect(placeAlong(elbow, 1e6).run).toBe(elbow.length);
    expect(placeAlong(stepped, 39.9).outerRadius).toBe(21);
    expect(placeAlong(stepped, 40)).toMatchObject({ outerRadius: 24, innerRadius: 22 });
  });
});

describe('the skin of a tube', () => {
  it('is closed: every edge runs once each way, seams and flat faces included', () => {
    for (const tube of [elbow, stepped]) {
      const { positions, triangles } = tubeSkin(tube);
      const name = (i: number): string => [0, 1, 2].map((k) => Math.round(positions[3 * i + k]! * 1e3)).join(' ');
      const edges = new Map<string, number>();
      for (let k = 0; k < triangles.length; k++) {
        const [a, b] = [name(triangles[k]!), name(triangles[k % 3 === 2 ? k - 2 : k + 1]!)];
        edges.set(`${a}|${b}`, (edges.get(`${a}|${b}`) ?? 0) + 1);
      }
      for (const key of edges.keys()) {
        const [a, b] = key.split('|');
        expect(edges.get(`${b}|${a}`)).toBe(edges.get(key));
      }
    }
  });

  it('encloses the metal: wall times length, by Pappus', () => {
    const metal = Math.PI * (21 ** 2 - 19.5 ** 2) * elbow.length;
    expect(volumeOf(tubeSkin(elbow)) / metal).toBeCloseTo(1, 1);
    // facets lie inside of the outside and of the bore: the metal of a thin wall stays within a few hundredths
    expect(Math.abs(volumeOf(tubeSkin(elbow)) / metal - 1)).toBeLessThan(0.02);
  });

  it('has its facets within the error it says, its normals square to the tube and outwards', () => {
    const { positions, normals, triangles, places } = tubeSkin(elbow);
    const path = pathOf(elbow);
    const at = (list: Float32Array, i: number): Vec3 => [list[3 * i]!, list[3 * i + 1]!, list[3 * i + 2]!];
    for (let t = 0; t < triangles.length; t += 3) {
      const corners = [0, 1, 2].map((k) => at(positions, triangles[t + k]!));
      const middle = scale(
        corners.reduce((a, b) => add(a, b)),
        1 / 3,
      );
      const from = distance(middle, headingAt(path, nearestRun(path, middle)).point);
      const off = Math.min(Math.abs(from - 21), Math.abs(from - 19.5), from > 19.4 && from < 21.1 ? 0 : 1);
      expect(off).toBeLessThan(SKIN_ERROR);
      const n = at(normals, triangles[t]!);
      const [a, b, c] = corners as [Vec3, Vec3, Vec3];
      expect(dot(n, cross(sub(b, a), sub(c, a)))).toBeGreaterThan(0);
    }
    for (let i = 0; i < places.length; i += 2) {
      expect(places[i]).toBeGreaterThanOrEqual(0);
      expect(places[i]).toBeLessThanOrEqual(elbow.length + 1e-3);
      expect(places[i + 1]).toBeLessThanOrEqual(1);
    }
  });
});

describe('a point picked on a tube', () => {
  it('goes to the true skin, outside or bore, and stays on a flat end', () => {
    expect(onTrueSkin(elbow, [20.93, 0, 50], 1)).toEqual([21, 0, 50]);
    expect(onTrueSkin(elbow, [0, 19.41, 50], 1)).toEqual([0, 19.5, 50]);
    expect(onTrueSkin(elbow, [5, 3, 0], 1)).toEqual([5, 3, 0]);
  });

  it('has the run of the nearest place of the centreline', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 1, noNaN: true }), (part) => {
        const path = pathOf(elbow);
        const run = part * elbow.length;
        expect(nearestRun(path, headingAt(path, run).point)).toBeCloseTo(run, 6);
      }),
    );
  });
});

function volumeOf({ positions: p, triangles }: { positions: Float32Array; triangles: Uint32Array }): number {
  let volume = 0;
  const at = (i: number): Vec3 => [p[3 * i]!, p[3 * i + 1]!, p[3 * i + 2]!];
  for (let t = 0; t < triangles.length; t += 3) {
    volume += dot(at(triangles[t]!), cross(at(triangles[t + 1]!), at(triangles[t + 2]!))) / 6;
  }
  return volume;
}
