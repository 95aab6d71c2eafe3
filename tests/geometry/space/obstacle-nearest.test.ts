import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { frameAlong } from '../../../src/geometry/frame.js';
import { nearestOnTriangle } from '../../../src/geometry/mesh/triangle-nearest.js';
import { fieldOf } from '../../../src/geometry/scan/field.js';
import { scanOf } from '../../../src/geometry/scan/scan.js';
import { type Obstacle, obstacleDistance } from '../../../src/geometry/space/obstacle.js';
import { nearestOnObstacle } from '../../../src/geometry/space/obstacle-nearest.js';
import { distance, unit, type Vec3 } from '../../../src/geometry/vec3.js';

const frame = frameAlong([20, -5, 40], unit([0.3, -0.5, 0.8]), 0.7);
const shapes: readonly Obstacle[] = [
  { kind: 'half-space', point: [0, -30, 0], normal: unit([0.1, 1, 0.2]) },
  { kind: 'box', frame, from: [-30, -10, -20], to: [25, 30, 35] },
  { kind: 'cylinder', frame, radius: 18, length: 60 },
  { kind: 'capsule', frame, radius: 12, length: 45 },
];

const coordinate = fc.double({ min: -150, max: 150, noNaN: true });
const place: fc.Arbitrary<Vec3> = fc.tuple(coordinate, coordinate, coordinate);

describe('nearest point of an obstacle', () => {
  for (const shape of shapes) {
    it(`lies on the skin of a ${shape.kind}, as far off as its distance says`, () => {
      fc.assert(
        fc.property(place, (p) => {
          const at = nearestOnObstacle(shape, p);
          expect(Math.abs(obstacleDistance(shape, at))).toBeLessThan(1e-9);
          expect(distance(at, p)).toBeCloseTo(Math.abs(obstacleDistance(shape, p)), 9);
        }),
      );
    });
  }

  it('is the nearest place of a scan', () => {
    const square = {
      positions: Float64Array.from([0, 0, 0, 40, 0, 0, 40, 40, 0, 0, 40, 0]),
      triangles: Uint32Array.from([0, 1, 2, 0, 2, 3]),
    };
    const field = fieldOf(scanOf(square), { from: [-50, -50, -50], to: [90, 90, 50] });
    expect(nearestOnObstacle({ kind: 'mesh', field }, [12, 30, 9])).toEqual([12, 30, 0]);
    expect(nearestOnObstacle({ kind: 'mesh', field }, [52, 20, 0])).toEqual([40, 20, 0]);
    expect(nearestOnObstacle({ kind: 'mesh', field }, [-3, -4, 0])).toEqual([0, 0, 0]);
  });
});

describe('nearest point of a triangle', () => {
  it('is no farther than any of its points', () => {
    const part = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(place, place, place, place, part, part, (p, a, b, c, u, v) => {
        const [s, t] = u + v > 1 ? [1 - u, 1 - v] : [u, v];
        const some = a.map((x, i) => x + s * (b[i]! - x) + t * (c[i]! - x)) as unknown as Vec3;
        expect(distance(nearestOnTriangle(p, a, b, c), p)).toBeLessThan(distance(some, p) + 1e-6);
      }),
    );
  });

  it('is the end or the foot on one that is collapsed to a line', () => {
    expect(nearestOnTriangle([5, 3, 0], [0, 0, 0], [10, 0, 0], [4, 0, 0])).toEqual([5, 0, 0]);
    expect(nearestOnTriangle([-5, 3, 0], [0, 0, 0], [10, 0, 0], [4, 0, 0])).toEqual([0, 0, 0]);
  });
});
