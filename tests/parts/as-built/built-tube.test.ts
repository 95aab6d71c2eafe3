import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pathFromPolygon } from '../../../src/geometry/path/control-polygon.js';
import { headingAt, pathLength, segmentLength } from '../../../src/geometry/path/path.js';
import { rotateAbout, unit, type Vec3 } from '../../../src/geometry/vec3.js';
import { lengthByStrings, runFilledBy, waterIn } from '../../../src/parts/as-built/built-tube.js';
import {
  shapeFromIntersections,
  shapeFromTangents,
  shapeLength,
  shapeOfPath,
} from '../../../src/parts/as-built/tube-shape.js';
import type { RoutedTube } from '../../../src/routing/routed.js';
import { arbitraryTube } from '../../support/random-path.js';

describe('water in a tube', () => {
  it('of one bore stands pi d^2 / 4 to the mm', () => {
    const sections = [{ from: 0, od: 42.4, wall: 1.6 }];
    // 39.2 mm bore: 1206.87 mm2, so a litre fills 828.59 mm
    expect(runFilledBy(1e6, sections, 0)).toBeCloseTo(1e6 / ((Math.PI * 39.2 ** 2) / 4), 9);
    expect(runFilledBy(1e6, sections, 0)).toBeCloseTo(828.59, 2);
    expect(runFilledBy(1e6, sections, 10)).toBeCloseTo(838.59, 2);
  });

  it('of a stepped tube fills the smaller bore first', () => {
    const sections = [
      { from: 0, od: 40, wall: 1 },
      { from: 300, od: 44, wall: 1 },
    ];
    const small = (Math.PI / 4) * 38 ** 2;
    const large = (Math.PI / 4) * 42 ** 2;
    expect(runFilledBy(290 * small + 400 * large, sections, 10)).toBeCloseTo(700, 9);
    expect(runFilledBy(100 * small, sections, 10)).toBeCloseTo(110, 9);
    const tube = { sections, length: 700 } as unknown as RoutedTube;
    expect(waterIn(tube, 10)).toBeCloseTo(290 * small + 400 * large, 6);
  });
});

describe('two strings', () => {
  it('on opposite sides have the centreline for their mean, wherever they lie round the tube', () => {
    // (R + r cos a) angle and (R - r cos a) angle along a bend
    const [clr, r, angle] = [63.5, 21.2, 1.3];
    for (const a of [0, 0.4, 1.2, Math.PI / 2, 3]) {
      const [one, other] = [a, a + Math.PI].map((x) => 100 + (clr + r * Math.cos(x)) * angle);
      expect(lengthByStrings(one!, other!)).toBeCloseTo(100 + clr * angle, 9);
    }
  });
});

describe('measured points', () => {
  const moved = (p: Vec3): Vec3 => {
    const turned = rotateAbout(p, unit([1, 2, -1]), 0.8);
    return [turned[0] + 31, turned[1] - 12, turned[2] + 5];
  };

  it('of random tubes give their straights, angles and turns back, in any frame', () => {
    fc.assert(
      fc.property(arbitraryTube, (polygon) => {
        const path = pathFromPolygon(polygon);
        const tube = { polygon, path } as RoutedTube;
        const route = shapeOfPath(path);
        expect(shapeLength(route)).toBeCloseTo(pathLength(path), 9);
        const same = (found: typeof route): void => {
          expect(shapeLength(found)).toBeCloseTo(pathLength(path), 6);
          expect(found.straights).toEqual(route.straights.map((s) => expect.closeTo(s, 5)));
          expect(found.angles).toEqual(route.angles.map((a) => expect.closeTo(a, 6)));
          found.turns.forEach((t, i) => {
            expect(t === null).toBe(route.turns[i] === null);
            if (t !== null) expect(Math.cos(t - route.turns[i]!)).toBeCloseTo(1, 6);
          });
        };
        same(shapeFromIntersections(polygon.points.map(moved), polygon.clr, tube));
        if (route.straights.some((s) => s < 1.001)) return;
        let run = 0;
        const ends = path.segments.flatMap((s) => {
          const from = run;
          run += segmentLength(s);
          return s.kind === 'straight' ? [headingAt(path, from).point, headingAt(path, run).point] : [];
        });
        same(shapeFromTangents(ends.map(moved), route));
      }),
      { numRuns: 200 },
    );
  });

  it('of a straight too short to have a direction are refused', () => {
    const points: Vec3[] = [
      [0, 0, 0],
      [0, 0, 0.5],
      [10, 0, 10],
      [20, 0, 10],
    ];
    expect(() => shapeFromTangents(points, { straights: [], angles: [1.5], arcs: [], turns: [] })).toThrow(
      /straight 1 is too short/,
    );
  });

  it('of a U-bend given by two points make one bend', () => {
    const clr = 60;
    const polygon = {
      points: [
        [0, 0, 0],
        [0, 0, 160],
        [2 * clr, 0, 160],
        [2 * clr, 0, 20],
      ] as const,
      clr: [clr, clr],
    };
    const path = pathFromPolygon(polygon);
    const tube = { polygon, path } as unknown as RoutedTube;
    const shape = shapeFromIntersections(polygon.points, polygon.clr, tube);
    expect(shape.straights).toEqual([100, 80].map((x) => expect.closeTo(x, 9)));
    expect(shape.angles).toEqual([expect.closeTo(Math.PI, 9)]);
    const ends: Vec3[] = [
      [0, 0, 0],
      [0, 0, 100],
      [2 * clr, 0, 100],
      [2 * clr, 0, 20],
    ];
    expect(shapeFromTangents(ends, shapeOfPath(path)).arcs).toEqual([expect.closeTo(Math.PI * clr, 9)]);
  });
});
