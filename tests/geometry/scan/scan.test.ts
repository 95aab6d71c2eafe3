import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { WORLD } from '../../../src/geometry/frame.js';
import type { Mesh } from '../../../src/geometry/mesh/mesh.js';
import { lowerToTriangle } from '../../../src/geometry/mesh/segment-triangle.js';
import { pathFromPolygon } from '../../../src/geometry/path/control-polygon.js';
import { headingAt, pathLength } from '../../../src/geometry/path/path.js';
import { SCAN_ERROR, scanDistance, scanLinkDistance } from '../../../src/geometry/scan/distance.js';
import { fieldOf, type Reach } from '../../../src/geometry/scan/field.js';
import { FAR } from '../../../src/geometry/scan/field-surface.js';
import { type Scan, scanOf } from '../../../src/geometry/scan/scan.js';
import { linkDistance } from '../../../src/geometry/space/link-distance.js';
import { obstacleDistance } from '../../../src/geometry/space/obstacle.js';
import { skinGapTo } from '../../../src/geometry/space/skin-gap.js';
import { DISTANCE_ERROR } from '../../../src/geometry/tolerance.js';
import { distance, type Vec3 } from '../../../src/geometry/vec3.js';
import { centrelineGapTo } from '../../support/centreline-gap.js';
import { arbitraryTube } from '../../support/random-path.js';
import { BAY, bayScan, randomFrom, together } from '../../support/random-scan.js';

/** Every triangle looked at. */
function bruteDistance({ positions, triangles }: Mesh, p: Vec3, q: Vec3): number {
  const best = { squared: Number.POSITIVE_INFINITY, t: 0 };
  for (let i = 0; i < triangles.length; i += 3) {
    lowerToTriangle(best, ...p, ...q, positions, triangles[i]! * 3, triangles[i + 1]! * 3, triangles[i + 2]! * 3);
  }
  return Math.sqrt(best.squared);
}

const pick = (random: () => number, { from, to }: Reach): Vec3 =>
  [0, 1, 2].map((k) => from[k]! + random() * (to[k]! - from[k]!)) as unknown as Vec3;

const exact = (scan: Scan, p: Vec3, q: Vec3): number => scan.approach(p, q, Number.POSITIVE_INFINITY)!.distance;

/** A cube of 12 triangles, 40 mm wide, from the origin. */
const cube: Mesh = {
  positions: Float64Array.from(
    [0, 1, 2, 3, 4, 5, 6, 7].flatMap((i) => [(i & 1) * 40, ((i >> 1) & 1) * 40, (i >> 2) * 40]),
  ),
  triangles: Uint32Array.from([
    0, 2, 1, 1, 2, 3, 4, 5, 6, 5, 7, 6, 0, 1, 4, 1, 5, 4, 2, 6, 3, 3, 6, 7, 0, 4, 2, 2, 4, 6, 1, 3, 5, 3, 7, 5,
  ]),
};
const nearCube: Reach = { from: [-80, -80, -80], to: [120, 120, 120] };
const cubeBox = { kind: 'box', frame: WORLD, from: [0, 0, 0], to: [40, 40, 40] } as const;

describe('exact distances to a scan', () => {
  const mesh = bayScan(24, 5);
  const scan = scanOf(mesh);

  it('of points and segments agree with every triangle looked at (seed 11)', () => {
    const random = randomFrom(11);
    for (let i = 0; i < 400; i++) {
      const p = pick(random, BAY);
      const q = i % 4 === 0 ? p : pick(random, BAY);
      expect(exact(scan, p, q)).toBeCloseTo(bruteDistance(mesh, p, q), 9);
    }
  });

  it('are none when nothing is nearer than asked', () => {
    const p: Vec3 = [200, -100, 100];
    const d = exact(scan, p, p);
    expect(scan.approach(p, p, d - 1e-6)).toBeNull();
    expect(scan.approach(p, p, d + 1e-6)!.distance).toBeCloseTo(d, 9);
    expect(scan.approach(p, p, 0)).toBeNull();
  });

  it('outside a closed cube are those of the box', () => {
    const closed = scanOf(cube);
    const random = randomFrom(3);
    for (let i = 0; i < 300; i++) {
      const p = pick(random, nearCube);
      const d = obstacleDistance(cubeBox, p);
      if (d > 0) expect(exact(closed, p, p)).toBeCloseTo(d, 9);
      else expect(exact(closed, p, p)).toBeCloseTo(-d, 9);
    }
  });

  it('leave the mesh they were made from as it was', () => {
    const triangles = cube.triangles.slice();
    scanOf(cube);
    expect(cube.triangles).toEqual(triangles);
  });
});

describe('dirty scans', () => {
  it('are refused when empty, broken or not finite', () => {
    const none: Mesh = { positions: new Float64Array(9), triangles: new Uint32Array(0) };
    expect(() => scanOf(none)).toThrow('no triangle');
    expect(() => scanOf({ ...cube, triangles: Uint32Array.from([0, 1, 8]) })).toThrow('beyond the 8 there are');
    expect(() => scanOf({ ...cube, positions: Float64Array.from([...cube.positions.slice(1), Number.NaN]) })).toThrow(
      'not a finite number',
    );
    expect(() => fieldOf(scanOf(cube), { from: [0, 0, 0], to: [1, -1, 1] })).toThrow('no space');
  });

  it('with doubled, collapsed and inverted triangles, points used by none and holes measure as the clean ones do', () => {
    const inverted: Mesh = { ...cube, triangles: cube.triangles.slice().reverse() };
    const collapsed: Mesh = { ...cube, triangles: Uint32Array.from([0, 0, 0, 1, 1, 3, 0, 7, 7]) };
    const stray: Mesh = { positions: Float64Array.from([60, 60, 60]), triangles: new Uint32Array(0) };
    // 0-7-7 is the diagonal inside the cube: nothing outside is nearest to it
    const dirty = scanOf(together(cube, inverted, collapsed, stray));
    const clean = scanOf(cube);
    const dirtyField = fieldOf(dirty, nearCube);
    const cleanField = fieldOf(clean, nearCube);
    const random = randomFrom(8);
    for (let i = 0; i < 300; i++) {
      const p = pick(random, nearCube);
      if (obstacleDistance(cubeBox, p) <= 0) continue;
      expect(exact(dirty, p, p)).toBeCloseTo(exact(clean, p, p), 9);
      expect(Math.abs(scanDistance(dirtyField, ...p) - scanDistance(cleanField, ...p))).toBeLessThan(SCAN_ERROR);
    }
  });

  it('of one triangle, large, small or out of reach, still measure', () => {
    const one = (size: number, at: number): Mesh => ({
      positions: Float64Array.from([at, at, at, at + size, at, at, at, at + size, at]),
      triangles: Uint32Array.from([0, 1, 2]),
    });
    for (const mesh of [one(1e6, -1e5), one(1e-3, 10), one(5, 500), one(0, 20)]) {
      const scan = scanOf(mesh);
      const field = fieldOf(scan, { from: [0, 0, 0], to: [100, 80, 60] });
      const p: Vec3 = [30, 30, 30];
      const d = exact(scan, p, p);
      expect(d).toBeCloseTo(bruteDistance(mesh, p, p), 6);
      expect(scanDistance(field, ...p)).toBeGreaterThanOrEqual(Math.min(d, FAR) - 1e-9);
      if (d < FAR) expect(scanDistance(field, ...p)).toBeLessThan(d + 0.5);
      else expect(scanDistance(field, ...p)).toBeGreaterThan(FAR);
    }
  });
});

describe('fast distances to a scan', () => {
  for (const [n, seed] of [
    [20, 1],
    [60, 2],
    [120, 3],
  ] as const) {
    it(`of points and links are never below the true ones and seldom above them by more than stated (${8 * n * n} triangles, seed ${seed})`, () => {
      const scan = scanOf(bayScan(n, seed));
      const field = fieldOf(scan, BAY);
      const random = randomFrom(seed);
      const above: number[] = [];
      for (let i = 0; i < 4000; i++) {
        const p = pick(random, BAY);
        const towards = pick(random, BAY);
        const l = Math.min(1, (10 + 120 * random()) / distance(p, towards));
        const q: Vec3 = i % 2 ? p : ([0, 1, 2].map((k) => p[k]! + (towards[k]! - p[k]!) * l) as unknown as Vec3);
        const d = exact(scan, p, q);
        const fast = i % 2 ? scanDistance(field, ...p) : scanLinkDistance(field, p, q, FAR);
        expect(fast).toBeGreaterThanOrEqual(Math.min(d, FAR) - 1e-9);
        if (d > 10 && d < 45) above.push(fast - d);
        else if (d <= 10) expect(fast).toBeLessThan(d + field.cell / 2);
        else if (d < FAR) expect(fast).toBeLessThan(d + 2.5);
      }
      above.sort((x, y) => x - y);
      expect(above[Math.floor(above.length / 2)]).toBeLessThan(0.1);
      expect(above[Math.floor(above.length * 0.98)]).toBeLessThan(SCAN_ERROR);
      expect(above[above.length - 1]).toBeLessThan(1.5);
    });
  }

  it('of links are the cutoff when nothing is nearer, and never above it', () => {
    const obstacle = { kind: 'mesh', field: fieldOf(scanOf(cube), nearCube) } as const;
    expect(linkDistance(obstacle, [-40, 100, 20], [80, 100, 20], 30)).toBe(30);
    expect(linkDistance(obstacle, [-40, 100, 20], [80, 100, 20], 90)).toBeCloseTo(60, 0);
    expect(linkDistance(obstacle, [20, 60, 20], [20, 60, 20], 90)).toBeCloseTo(20, 0);
  });

  it('are the same every time', () => {
    const scan = scanOf(bayScan(20, 4));
    const p: Vec3 = [111, -77, 222];
    expect(scanDistance(fieldOf(scan, BAY), ...p)).toBe(scanDistance(fieldOf(scan, BAY), ...p));
  });
});

describe('least distance from a tube to a scan', () => {
  const box: Reach = { from: [-500, -500, -500], to: [500, 500, 500] };

  it('of a cube is that of the box it is the skin of', () => {
    const obstacle = { kind: 'mesh', field: fieldOf(scanOf(cube), box) } as const;
    fc.assert(
      fc.property(arbitraryTube, (polygon) => {
        const path = pathFromPolygon(polygon);
        const toBox = centrelineGapTo(path, cubeBox);
        if (toBox.gap <= 0) return;
        expect(Math.abs(centrelineGapTo(path, obstacle).gap - toBox.gap)).toBeLessThanOrEqual(DISTANCE_ERROR);
      }),
      { numRuns: 150 },
    );
  });

  it('is never more than the error above what dense samples find, and is there where it says', () => {
    const mesh = bayScan(14, 9);
    const scan = scanOf(mesh);
    const obstacle = { kind: 'mesh', field: fieldOf(scan, box) } as const;
    fc.assert(
      fc.property(arbitraryTube, (polygon) => {
        const path = pathFromPolygon(polygon);
        const found = centrelineGapTo(path, obstacle);
        const total = pathLength(path);
        const n = Math.ceil(total / 2);
        let sampled = Number.POSITIVE_INFINITY;
        for (let i = 0; i <= n; i++) {
          const p = headingAt(path, (total * i) / n).point;
          sampled = Math.min(sampled, scan.approach(p, p, sampled)?.distance ?? sampled);
        }
        expect(found.gap).toBeLessThanOrEqual(sampled + DISTANCE_ERROR);
        expect(found.gap).toBeGreaterThanOrEqual(sampled - 1.01);
        const at = headingAt(path, found.run).point;
        expect(bruteDistance(mesh, at, at)).toBeCloseTo(found.gap, 6);
      }),
      { numRuns: 60 },
    );
  });

  it('counts the radius of each step', () => {
    const obstacle = { kind: 'mesh', field: fieldOf(scanOf(cube), box) } as const;
    const path = pathFromPolygon({
      points: [
        [-100, 20, 70],
        [140, 20, 70],
      ],
      clr: [],
    });
    const thin = skinGapTo({ path, steps: [{ from: 0, radius: 10 }] }, obstacle);
    expect(thin.gap).toBeCloseTo(20, 9);
    // the thicker tube begins 40 mm past the cube
    const steps = [
      { from: 0, radius: 10 },
      { from: 180, radius: 25 },
    ];
    const stepped = skinGapTo({ path, steps }, obstacle);
    expect(stepped.gap).toBeCloseTo(20, 9);
    const later = skinGapTo({ path, steps: [steps[0]!, { from: 145, radius: 25 }] }, obstacle);
    expect(later.gap).toBeCloseTo(Math.hypot(5, 30) - 25, 2);
    expect(later.run).toBeCloseTo(145, 1);
  });
});
