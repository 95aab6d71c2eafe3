import { describe, expect, it } from 'vitest';
import { frameAlong, pointFrom, WORLD } from '../../src/geometry/frame.js';
import { meshBounds, meshVolume, pointOf } from '../../src/geometry/mesh/measure.js';
import { placed, type Solid, union } from '../../src/geometry/solid/solid.js';
import { box } from '../../src/geometry/solid/solid-shapes.js';
import { distance, unit } from '../../src/geometry/vec3.js';
import { fileName, printedPart, tooBigFor } from '../../src/parts/printed-part.js';

const at = frameAlong([40, -700, 310], unit([1, 2, -2]), 0.3);
const make = (solid: Solid, more: object = {}) =>
  printedPart({ name: 'brick', kind: 'port-plug', title: 'brick', solid, at, up: WORLD, ...more }, [210, 210, 210]);
const brick = box([10, 20, 30], [40, 30, 50]);
const crumb = (size: number) => union(brick, placed(box([0, 0, 0], [size, size, size]), WORLD));

describe('printed part', () => {
  it('lies on the bed, centred, and its pose takes every point back to its place', () => {
    for (const up of [WORLD, frameAlong([0, 0, 0], [1, 0, 0]), frameAlong([0, 0, 0], unit([1, 1, 1]))]) {
      const part = make(brick, { up });
      const { low, high } = meshBounds(part.mesh);
      expect(low[2]).toBe(0);
      expect(Math.abs(low[0] + high[0])).toBeLessThan(0.001);
      expect(part.size[2]).toBeCloseTo(high[2], 9);
      const corners = [10, 40].flatMap((x) => [20, 30].flatMap((y) => [30, 50].map((z) => pointFrom(at, [x, y, z]))));
      for (let i = 0; i < part.mesh.positions.length / 3; i++) {
        const p = pointFrom(part.pose, pointOf(part.mesh, i));
        expect(Math.min(...corners.map((c) => distance(c, p)))).toBeLessThan(0.001);
      }
    }
  });

  it('turns on the bed only when it must', () => {
    expect(make(box([0, 0, 0], [200, 20, 10])).size[0]).toBeCloseTo(200, 2);
    const long = make(box([0, 0, 0], [260, 10, 10]));
    expect(long.tooBig).toBeNull();
    expect(long.size[0]).toBeLessThan(210);
    expect(make(box([0, 0, 0], [300, 100, 10])).tooBig).toBe(
      '300 x 100 x 10 mm does not fit the bed of 210 x 210 x 210 mm',
    );
  });

  it('refuses loose bodies, and drops crumbs only when told to', () => {
    expect(() => make(crumb(0.5))).toThrow(/brick: 2 closed skins where 1 should be/);
    expect(meshVolume(make(crumb(0.5), { dropBelow: 1 }).mesh)).toBeCloseTo(6000, 0);
    expect(() => make(crumb(3), { dropBelow: 1 })).toThrow(/2 closed skins/);
  });

  it('takes a bed either way round', () => {
    expect(tooBigFor([100, 200, 50], [220, 120, 60])).toBeNull();
    expect(tooBigFor([100, 200, 61], [220, 120, 60])).toMatch(/does not fit/);
  });

  it('makes names safe for files', () => {
    expect(fileName('Y-merge  Nr. 2 / left')).toBe('y-merge-nr-2-left');
  });
});
