import { describe, expect, it } from 'vitest';
import { frameAlong } from '../../../src/geometry/frame.js';
import { meshBounds, meshVolume, shellsOf } from '../../../src/geometry/mesh/measure.js';
import { asStlReaderSees, meshFaults } from '../../../src/geometry/mesh/validate.js';
import {
  bodiesOf,
  difference,
  evaluate,
  hull,
  intersection,
  largestBody,
  minGap,
  overlapVolume,
  placed,
  raised,
  type Solid,
  SolidError,
  solidOf,
  trimmed,
  union,
  volumeOf,
} from '../../../src/geometry/solid/solid.js';
import { bar, box } from '../../../src/geometry/solid/solid-shapes.js';
import type { Vec2 } from '../../../src/geometry/vec2.js';
import { unit } from '../../../src/geometry/vec3.js';
import { meshArea } from '../../support/mesh-area.js';

const cube = box([0, 0, 0], [10, 10, 10]);
const moved = (s: Solid, x: number, y = 0, z = 0): Solid =>
  placed(s, { origin: [x, y, z], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] });
/** A cube with a square hole along z, a bar through it sideways and a corner off, turned out of every axis. */
const busy = placed(
  trimmed(union(difference(cube, box([3, 3, -1], [7, 7, 11])), bar(2, -20, 20)), {
    point: [9, 9, 9],
    normal: unit([-1, -1, -1]),
  }),
  frameAlong([30, -20, 5], unit([1, 2, 3]), 0.4),
);

describe('solid', () => {
  it('follows the laws of volume: union, intersection and difference add up', () => {
    const other = moved(bar(4, -5, 15), 5, 5);
    const [a, b] = [volumeOf(cube), volumeOf(other)];
    const both = volumeOf(intersection(cube, other));
    expect(a).toBeCloseTo(1000, 6);
    expect(volumeOf(union(cube, other))).toBeCloseTo(a + b - both, 3);
    expect(volumeOf(difference(cube, other))).toBeCloseTo(a - both, 3);
    expect(overlapVolume(cube, other)).toBeCloseTo(both, 6);
  });

  it('returns closed meshes, also as a reader of STL sees them', () => {
    const mesh = evaluate(busy);
    expect(meshFaults(mesh, { bodies: 1 })).toEqual([]);
    expect(meshFaults(asStlReaderSees(mesh), { bodies: 1 })).toEqual([]);
    expect(meshVolume(mesh)).toBeCloseTo(volumeOf(busy), 2);
  });

  it('gives the same bytes for the same tree', () => {
    expect(evaluate(busy)).toEqual(evaluate(busy));
  });

  it('keeps the side of a plane its normal points to', () => {
    const half = evaluate(trimmed(cube, { point: [0, 0, 4], normal: [0, 0, 1] }));
    expect(meshVolume(half)).toBeCloseTo(600, 4);
    expect(meshBounds(half)).toEqual({ low: [0, 0, 4], high: [10, 10, 10] });
  });

  it('wraps all members of a hull', () => {
    expect(volumeOf(hull(cube, moved(cube, 20)))).toBeCloseTo(3000, 3);
  });

  it('drops loose bodies only when asked', () => {
    const loose = union(cube, moved(box([0, 0, 0], [1, 1, 1]), 20));
    expect(bodiesOf(loose)).toBe(2);
    expect(shellsOf(evaluate(loose)).map((s) => Math.round(s.volume))).toEqual([1000, 1]);
    expect(volumeOf(largestBody(loose))).toBeCloseTo(1000, 4);
    expect(bodiesOf(largestBody(loose))).toBe(1);
  });

  it('measures the gap up to the length searched', () => {
    expect(minGap(cube, moved(cube, 13), 10)).toBeCloseTo(3, 5);
    expect(minGap(cube, moved(cube, 30), 10)).toBe(10);
    expect(minGap(cube, moved(cube, 5), 10)).toBe(0);
  });

  it('counts the ways through', () => {
    const tunnel = difference(cube, box([3, 3, -1], [7, 7, 11]));
    expect(shellsOf(evaluate(tunnel)).map((s) => s.genus)).toEqual([1]);
    expect(meshArea(evaluate(tunnel))).toBeCloseTo(600 - 32 + 160, 3);
  });

  it('names what is wrong with a word', () => {
    const open = solidOf({ positions: new Float64Array(9).map((_, i) => i * i), triangles: Uint32Array.of(0, 1, 2) });
    const status = (make: () => unknown): string => {
      try {
        make();
      } catch (e) {
        if (e instanceof SolidError) return e.status;
      }
      return 'no SolidError';
    };
    expect(status(() => evaluate(union(cube, open)))).toBe('NotManifold');
    expect(status(() => evaluate(intersection(cube, moved(cube, 50))))).toBe('Empty');
    expect(volumeOf(intersection(cube, moved(cube, 50)))).toBe(0);
  });

  it('frees what it builds: 200 evaluations leave the process no larger than a bound', () => {
    for (let i = 0; i < 20; i++) evaluate(busy);
    const before = process.memoryUsage();
    for (let i = 0; i < 200; i++) evaluate(busy);
    const after = process.memoryUsage();
    expect((after.rss - before.rss) / 2 ** 20).toBeLessThan(64);
  });

  it('raises what rings cover together, counting nothing twice', () => {
    const ring = (x: number): Vec2[] => [
      [x, 0],
      [x + 10, 0],
      [x + 10, 4],
      [x, 4],
    ];
    const solid = raised([ring(0), ring(6), ring(30)], -1, 2);
    expect(volumeOf(solid)).toBeCloseTo((16 + 10) * 4 * 3, 6);
    expect(bodiesOf(solid)).toBe(2);
    expect(meshBounds(evaluate(solid))).toEqual({ low: [0, 0, -1], high: [40, 4, 2] });
  });
});
