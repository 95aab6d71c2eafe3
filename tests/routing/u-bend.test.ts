import { describe, expect, it } from 'vitest';
import { frameAlong } from '../../src/geometry/frame.js';
import { pathFromPolygon, polygonLength, straightLengths } from '../../src/geometry/path/control-polygon.js';
import { endOf, pathLength } from '../../src/geometry/path/path.js';
import { distance, dot } from '../../src/geometry/vec3.js';
import { isOneBend, polygonOf, type Trial } from '../../src/routing/trial.js';
import { polygonFromPath } from '../support/path-soundness.js';

const start = frameAlong([0, 0, 0], [0, 0, 1]);
const inlet = frameAlong([30, -260, 60], [0, 0, -1]);
const trial: Trial = {
  fromStart: 90,
  toInlet: 80,
  inner: [{ at: [10, -60, 230], u: 1.2 }],
  clr: [63.5, 63.5, 63.5],
};

describe('a U-bend of a trial', () => {
  const polygon = polygonOf(trial, start, inlet);
  const path = pathFromPolygon(polygon);

  it('is two intersection points in one plane with nothing between their bends', () => {
    expect(polygon.points).toHaveLength(6);
    expect(Math.abs(straightLengths(polygon)[2]!)).toBeLessThan(1e-9);
    expect(isOneBend(polygon.points, polygon.clr, 2, straightLengths(polygon)[2]!)).toBe(true);
  });

  it('becomes one bend of the path, as long as both and ending where they do', () => {
    expect(path.segments.filter((s) => s.kind === 'bend')).toHaveLength(3);
    expect(pathLength(path)).toBeCloseTo(polygonLength(polygon), 9);
    expect(distance(endOf(path).point, inlet.origin)).toBeLessThan(1e-8);
    expect(dot(endOf(path).direction, inlet.z)).toBeCloseTo(1, 9);
  });
});

describe('a half turn', () => {
  it('is given by two points and read back as two', () => {
    const polygon = {
      points: [
        [0, 0, 0],
        [150, 0, 0],
        [150, 120, 0],
        [0, 120, 0],
      ] as const,
      clr: [60, 60],
    };
    const path = pathFromPolygon(polygon);
    const [bend] = path.segments.filter((s) => s.kind === 'bend');
    expect(path.segments.filter((s) => s.kind === 'bend')).toHaveLength(1);
    expect(bend!.kind === 'bend' && bend!.angle).toBeCloseTo(Math.PI, 12);
    const again = polygonFromPath(path);
    for (const [i, p] of again.points.entries()) expect(distance(p, polygon.points[i]!)).toBeLessThan(1e-9);
  });
});
