import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { frameAlong } from '../../../src/geometry/frame.js';
import { pathFromPolygon } from '../../../src/geometry/path/control-polygon.js';
import { headingAt, type Path, pathLength } from '../../../src/geometry/path/path.js';
import { type Obstacle, obstacleDistance } from '../../../src/geometry/space/obstacle.js';
import { segmentApproach } from '../../../src/geometry/space/segment-distance.js';
import { DISTANCE_ERROR } from '../../../src/geometry/tolerance.js';
import { distance, type Vec3 } from '../../../src/geometry/vec3.js';
import { centrelineGap, centrelineGapTo, U_PATH } from '../../support/centreline-gap.js';
import { arbitraryTube } from '../../support/random-path.js';

const straight = (from: Vec3, to: Vec3): Path => pathFromPolygon({ points: [from, to], clr: [] });

function samples(path: Path, step: number): Vec3[] {
  const total = pathLength(path);
  const n = Math.ceil(total / step);
  return Array.from({ length: n + 1 }, (_, i) => headingAt(path, (total * i) / n).point);
}

describe('least distance of two centrelines', () => {
  it('is exact for skew, parallel, crossing and point-like straights', () => {
    expect(segmentApproach([0, 0, 0], [10, 0, 0], [5, -5, 3], [5, 5, 3]).distance).toBe(3);
    expect(segmentApproach([0, 0, 0], [10, 0, 0], [2, 4, 0], [30, 4, 0]).distance).toBe(4);
    expect(segmentApproach([0, 0, 0], [10, 0, 0], [13, 4, 0], [30, 4, 0]).distance).toBe(5);
    expect(segmentApproach([0, 0, 0], [0, 0, 0], [3, 4, 0], [3, 4, 0]).distance).toBe(5);
    expect(centrelineGap(straight([-1, -1, 0], [1, 1, 0]), straight([-1, 1, 0], [1, -1, 0])).gap).toBe(0);
  });

  it('of a quarter bend and a straight beyond it is the closed form', () => {
    // bend of CLR 60 about (100, 60, 0): its outermost point towards (+1, -1) lies 60 from the centre
    const bend = pathFromPolygon({
      points: [
        [0, 0, 0],
        [160, 0, 0],
        [160, 160, 0],
      ],
      clr: [60],
    });
    const diagonal = straight([100, -100, 0], [260, 60, 0]);
    const centreToLine = Math.abs(100 - 60 - 200) / Math.SQRT2;
    const found = centrelineGap(bend, diagonal);
    expect(found.gap).toBeGreaterThanOrEqual(centreToLine - 60 - 1e-9);
    expect(found.gap).toBeLessThanOrEqual(centreToLine - 60 + DISTANCE_ERROR);
  });

  it('is never more than the error above what dense samples find, and never below the truth', () => {
    fc.assert(
      fc.property(arbitraryTube, arbitraryTube, (p, q) => {
        const a = pathFromPolygon(p);
        const b = pathFromPolygon(q);
        const found = centrelineGap(a, b);
        const step = 8;
        const others = samples(b, step);
        const sampled = Math.min(...samples(a, step).map((s) => Math.min(...others.map((o) => distance(s, o)))));
        expect(found.gap).toBeLessThanOrEqual(sampled + DISTANCE_ERROR);
        expect(found.gap).toBeGreaterThanOrEqual(sampled - step);
        const there = distance(headingAt(a, found.run).point, headingAt(b, found.otherRun).point);
        expect(there).toBeCloseTo(found.gap, 6);
      }),
      { numRuns: 60 },
    );
  });

  it('is the same whichever path comes first', () => {
    fc.assert(
      fc.property(arbitraryTube, arbitraryTube, (p, q) => {
        const a = pathFromPolygon(p);
        const b = pathFromPolygon(q);
        expect(Math.abs(centrelineGap(a, b).gap - centrelineGap(b, a).gap)).toBeLessThanOrEqual(DISTANCE_ERROR);
      }),
      { numRuns: 60 },
    );
  });

  it('of a path to itself counts only places far enough apart along it', () => {
    const total = pathLength(U_PATH);
    const at = Array.from({ length: 561 }, (_, i) => ({
      run: (total * i) / 560,
      p: headingAt(U_PATH, (total * i) / 560).point,
    }));
    const apart = at.flatMap((a) => at.filter((b) => b.run - a.run >= 150).map((b) => distance(a.p, b.p)));
    expect(Math.abs(centrelineGap(U_PATH, U_PATH, DISTANCE_ERROR, 150).gap - Math.min(...apart))).toBeLessThan(0.6);
    expect(centrelineGap(U_PATH, U_PATH, DISTANCE_ERROR, 400).gap).toBeCloseTo(160, 2);
  });
});

describe('least distance to kept-out space', () => {
  const box: Obstacle = {
    kind: 'box',
    frame: frameAlong([0, 0, 0], [0, 0, 1]),
    from: [-10, -20, -30],
    to: [10, 20, 30],
  };
  const cylinder: Obstacle = { kind: 'cylinder', frame: frameAlong([0, 0, 0], [0, 1, 0]), radius: 15, length: 100 };
  const below: Obstacle = { kind: 'half-space', point: [0, 0, 5], normal: [0, 0, 1] };

  it('is known at points outside, on and inside', () => {
    expect(obstacleDistance(box, [13, 24, 0])).toBe(5);
    expect(obstacleDistance(box, [0, 0, 0])).toBe(-10);
    expect(obstacleDistance(cylinder, [18, 104, 0])).toBeCloseTo(5, 12);
    expect(obstacleDistance(cylinder, [0, 50, 10])).toBeCloseTo(-5, 12);
    expect(obstacleDistance(below, [7, 7, 2])).toBe(-3);
  });

  it('of a path is never more than the error above what dense samples find', () => {
    fc.assert(
      fc.property(arbitraryTube, fc.constantFrom(box, cylinder, below), (polygon, obstacle) => {
        const path = pathFromPolygon(polygon);
        const found = centrelineGapTo(path, obstacle);
        const sampled = Math.min(...samples(path, 2).map((p) => obstacleDistance(obstacle, p)));
        expect(found.gap).toBeLessThanOrEqual(sampled + DISTANCE_ERROR);
        expect(found.gap).toBeGreaterThanOrEqual(sampled - 1.01);
        expect(obstacleDistance(obstacle, headingAt(path, found.run).point)).toBeCloseTo(found.gap, 6);
      }),
      { numRuns: 150 },
    );
  });
});
