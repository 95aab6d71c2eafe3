import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { polygonLength } from '../../../src/geometry/path/control-polygon.js';
import { firstNormal, lraFromPolygon, polygonFromLra } from '../../../src/geometry/path/lra.js';
import { distance, sub, unit } from '../../../src/geometry/vec3.js';
import { arbitraryTube } from '../../support/random-path.js';

describe('LRA', () => {
  it('turns into XYZ and back into the same tube', () => {
    fc.assert(
      fc.property(arbitraryTube, (polygon) => {
        const { points } = polygon;
        const lra = lraFromPolygon(polygon);
        const start = { point: points[0]!, direction: unit(sub(points[1]!, points[0]!)), normal: firstNormal(points) };
        const again = polygonFromLra(lra, start);
        for (const [i, p] of again.points.entries()) expect(distance(p, points[i]!)).toBeLessThan(1e-6);
      }),
    );
  });

  it('sums to the length: straights and R times angle', () => {
    fc.assert(
      fc.property(arbitraryTube, (polygon) => {
        const { rows, lastStraight } = lraFromPolygon(polygon);
        const sum = rows.reduce((s, r) => s + r.straight + r.clr * r.angle, lastStraight);
        expect(sum).toBeCloseTo(polygonLength(polygon), 8);
      }),
    );
  });

  it('counts rotation right-handed about the direction of travel', () => {
    // along +x, bend towards +y, then towards +z: the bend plane's normal turns from +z to +x, which is a quarter turn about +y
    const polygon = {
      points: [
        [0, 0, 0],
        [200, 0, 0],
        [200, 200, 0],
        [200, 200, 200],
      ] as const,
      clr: [50, 50],
    };
    expect(lraFromPolygon(polygon).rows[1]!.rotation).toBeCloseTo(Math.PI / 2, 12);
  });
});
