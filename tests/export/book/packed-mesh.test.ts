import { describe, expect, it } from 'vitest';
import { packMesh, unpackMesh } from '../../../src/export/book/packed-mesh.js';
import { meshVolume } from '../../../src/geometry/mesh/measure.js';
import { meshFaults } from '../../../src/geometry/mesh/validate.js';
import { difference, evaluate } from '../../../src/geometry/solid/solid.js';
import { bar, box } from '../../../src/geometry/solid/solid-shapes.js';

const pipe = evaluate(difference(bar(21.3, -400, 137.77), bar(19.7, -500, 200)));

describe('a mesh as text', () => {
  it('comes back closed, with every point within half a step of where it was', () => {
    const back = unpackMesh(packMesh(pipe, 0.02, 0.1));
    expect(meshFaults(back, { bodies: 1 })).toEqual([]);
    expect(Math.abs(meshVolume(back) / meshVolume(pipe) - 1)).toBeLessThan(0.01 / 1.6);
    const places = new Set<string>();
    for (let i = 0; i < back.positions.length; i += 3) {
      places.add([0, 1, 2].map((k) => Math.round(back.positions[i + k]! / 0.02)).join(' '));
    }
    for (let i = 0; i < pipe.positions.length; i += 3) {
      const near = [0, 1, 2].map((k) => Math.round(pipe.positions[i + k]! / 0.02));
      const found = [-1, 0, 1].some((x) =>
        [-1, 0, 1].some((y) =>
          [-1, 0, 1].some((z) => places.has([near[0]! + x, near[1]! + y, near[2]! + z].join(' '))),
        ),
      );
      expect(found).toBe(true);
    }
  });

  it('keeps exactly what stands on the grid', () => {
    const cube = evaluate(box([-3, 2, 1000], [7, 12, 1010]));
    const back = unpackMesh(packMesh(cube, 0.5, 0));
    expect(meshVolume(back)).toBeCloseTo(1000, 9);
    expect(Math.min(...back.positions)).toBe(-3);
    expect(Math.max(...back.positions)).toBe(1010);
  });

  it('drops what collapses and says how much is left', () => {
    const packed = packMesh(evaluate(bar(0.3, 0, 50)), 5, 3);
    expect(packed.triangles).toBe(0);
    expect(unpackMesh(packed).triangles).toHaveLength(0);
  });

  it('takes less than a fifth of the mesh as numbers in JSON', () => {
    const text = JSON.stringify([[...pipe.positions], [...pipe.triangles]]);
    expect(JSON.stringify(packMesh(pipe, 0.1, 0.1)).length).toBeLessThan(text.length / 5);
  });

  it('refuses text that is cut short, too long or names what is not there', () => {
    const packed = packMesh(pipe, 0.1, 0);
    const short = { ...packed, packed: packed.packed.slice(0, -8) };
    expect(() => unpackMesh(short)).toThrow(/too soon/);
    expect(() => unpackMesh({ ...packed, triangles: packed.triangles - 1 })).toThrow(/other than/);
    expect(() => unpackMesh({ ...packed, points: packed.points - 1 })).toThrow(RangeError);
  });
});
