import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Frame, frameAlong } from '../../../src/geometry/frame.js';
import { LINK_ERROR, linkDistance, nearestOnLink } from '../../../src/geometry/space/link-distance.js';
import { type ConvexObstacle, obstacleDistance } from '../../../src/geometry/space/obstacle.js';
import { lerp, unit, type Vec3 } from '../../../src/geometry/vec3.js';

const coordinate = fc.double({ min: -150, max: 150, noNaN: true });
const place = fc.tuple(coordinate, coordinate, coordinate);
const size = fc.double({ min: 0, max: 60, noNaN: true });
const axis: fc.Arbitrary<Vec3> = place.filter((v) => Math.hypot(...v) > 1).map(unit);
const frame: fc.Arbitrary<Frame> = fc.tuple(place, axis, coordinate).map(([o, z, a]) => frameAlong(o, z, a / 50));

const obstacle: fc.Arbitrary<ConvexObstacle> = fc.oneof(
  fc.tuple(place, axis).map(([point, normal]) => ({ kind: 'half-space', point, normal }) as const),
  fc
    .tuple(frame, size, size, size)
    .map(([f, a, b, c]) => ({ kind: 'box', frame: f, from: [-a, -b, -c], to: [b, c, a] }) as const),
  fc.tuple(frame, size, size).map(([f, radius, length]) => ({ kind: 'cylinder', frame: f, radius, length }) as const),
  fc.tuple(frame, size, size).map(([f, radius, length]) => ({ kind: 'capsule', frame: f, radius, length }) as const),
);

describe('distance to a capsule', () => {
  const capsule: ConvexObstacle = { kind: 'capsule', frame: frameAlong([0, 0, 0], [0, 1, 0]), radius: 15, length: 100 };

  it('is known beside it, past its ends and inside', () => {
    expect(obstacleDistance(capsule, [18, 50, 24])).toBeCloseTo(15, 12);
    expect(obstacleDistance(capsule, [0, 120, 0])).toBeCloseTo(5, 12);
    expect(obstacleDistance(capsule, [3, -4, 0])).toBeCloseTo(-10, 12);
    expect(obstacleDistance(capsule, [0, 60, 0])).toBeCloseTo(-15, 12);
  });

  it('is that of a cylinder beside it and of a ball past its ends', () => {
    const cylinder: ConvexObstacle = { ...capsule, kind: 'cylinder' };
    const ball: ConvexObstacle = { ...capsule, frame: frameAlong([0, 100, 0], [0, 1, 0]), length: 0 };
    fc.assert(
      fc.property(place, (p) => {
        const d = obstacleDistance(capsule, p);
        if (p[1] >= 100) expect(d).toBeCloseTo(obstacleDistance(ball, p), 9);
        else if (p[1] >= 0 && d >= 0) expect(d).toBeCloseTo(obstacleDistance(cylinder, p), 9);
      }),
    );
  });
});

describe('least distance along a link', () => {
  it('is within the stated error of fine samples, for every kind of convex obstacle', () => {
    fc.assert(
      fc.property(obstacle, place, place, (o, p, q) => {
        const n = 400;
        let sampled = Number.POSITIVE_INFINITY;
        for (let i = 0; i <= n; i++) sampled = Math.min(sampled, obstacleDistance(o, lerp(p, q, i / n)));
        const step = Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]) / n;
        const found = linkDistance(o, p, q, 1e6);
        expect(found).toBeLessThanOrEqual(sampled + LINK_ERROR);
        expect(found).toBeGreaterThanOrEqual(sampled - step - 1e-9);
        const near = nearestOnLink(o, p, q, 1e-3, 1e6)!;
        expect(near.distance).toBeLessThanOrEqual(sampled + 1e-3);
        expect(obstacleDistance(o, lerp(p, q, near.t))).toBeCloseTo(near.distance, 4);
      }),
      { numRuns: 1000 },
    );
  });

  it('is the cutoff when nothing is nearer, and untouched by it otherwise', () => {
    fc.assert(
      fc.property(obstacle, place, place, coordinate, (o, p, q, cutoff) => {
        const free = linkDistance(o, p, q, 1e6);
        const bounded = linkDistance(o, p, q, cutoff);
        expect(bounded).toBeLessThanOrEqual(cutoff);
        expect(Math.abs(bounded - Math.min(free, cutoff))).toBeLessThanOrEqual(LINK_ERROR);
      }),
      { numRuns: 1000 },
    );
  });

  it('is the same from either end', () => {
    fc.assert(
      fc.property(obstacle, place, place, (o, p, q) => {
        expect(Math.abs(linkDistance(o, p, q, 1e6) - linkDistance(o, q, p, 1e6))).toBeLessThanOrEqual(LINK_ERROR);
      }),
      { numRuns: 500 },
    );
  });
});
