import { describe, expect, it } from 'vitest';
import { meshVolume, triangleCount } from '../../../src/geometry/mesh/measure.js';
import type { Mesh } from '../../../src/geometry/mesh/mesh.js';
import { snapMesh } from '../../../src/geometry/mesh/snap.js';
import { meshFaults, validateMesh } from '../../../src/geometry/mesh/validate.js';
import { weldExact } from '../../../src/geometry/mesh/weld.js';
import { evaluate } from '../../../src/geometry/solid/solid.js';
import { bar, box } from '../../../src/geometry/solid/solid-shapes.js';

const cube = evaluate(box([0, 0, 0], [10, 10, 10]));

/** The cube with one triangle split at a point a hair off the middle of its longest side and its neighbour too. */
function withSplitSide(mesh: Mesh, hair: number): Mesh {
  const [a, b, c] = [...mesh.triangles.slice(0, 3)] as [number, number, number];
  const p = (i: number) => mesh.positions.slice(3 * i, 3 * i + 3);
  const sides: [number, number, number][] = [
    [a, b, c],
    [b, c, a],
    [c, a, b],
  ];
  const span = ([i, j]: [number, number, number]) => Math.hypot(...p(i).map((v, k) => v - p(j)[k]!));
  const [i, j, k] = sides.reduce((x, y) => (span(y) > span(x) ? y : x));
  const m = mesh.positions.length / 3;
  // the new corner stands a hair inside the first triangle, joined to its two ends only: a needle i-j-m is left over
  const middle = p(i).map((v, n) => (v + p(j)[n]!) / 2 + hair * (p(k)[n]! - v));
  return {
    positions: Float64Array.from([...mesh.positions, ...middle]),
    triangles: Uint32Array.from([...mesh.triangles.slice(3), i, j, m, j, k, m, k, i, m]),
  };
}

describe('mesh on a grid', () => {
  it('leaves a mesh on the grid as it is', () => {
    expect(meshVolume(snapMesh(cube, 0.5))).toBe(1000);
    expect(triangleCount(snapMesh(cube, 0.5))).toBe(12);
  });

  it('takes out a triangle that falls flat and stays closed', () => {
    const needle = withSplitSide(cube, 1e-7);
    expect(meshFaults(needle)).toEqual([]);
    const snapped = snapMesh(needle, 0.001);
    validateMesh(snapped, 'cube', { bodies: 1, leastTriangle: 1e-7 });
    expect(meshVolume(snapped)).toBeCloseTo(1000, 9);
    expect(triangleCount(snapped)).toBe(14);
  });

  it('stays closed on grids so coarse that the form is lost', () => {
    const rod = evaluate(bar(9.7, 0, 40));
    for (const spacing of [0.01, 0.1, 0.5, 1, 2]) {
      expect(meshFaults(snapMesh(rod, spacing), { bodies: 1 })).toEqual([]);
    }
  });

  it('refuses a grid finer than its whole numbers hold', () => {
    expect(() => snapMesh(cube, 1e-8)).toThrow(RangeError);
  });
});

describe('weld', () => {
  it('makes points of equal coordinates one, -0 and 0 alike', () => {
    const loose: Mesh = {
      positions: Float64Array.of(0, 0, 0, 1, 0, 0, 0, 1, 0, -0, 0, 0, 0, 1, 0, 0, 0, 1),
      triangles: Uint32Array.of(0, 1, 2, 3, 4, 5),
    };
    expect(weldExact(loose).positions.length / 3).toBe(4);
  });
});

describe('mesh validator', () => {
  it('names every fault', () => {
    const inside = { ...cube, triangles: cube.triangles.map((_, i, all) => all[i - (i % 3) + [0, 2, 1][i % 3]!]!) };
    expect(meshFaults(inside).join()).toMatch(/do not face outwards/);
    expect(meshFaults({ ...cube, triangles: cube.triangles.slice(3) }).join()).toMatch(/3 edges are not paired/);
    expect(meshFaults({ ...cube, positions: cube.positions.map((v, i) => (i === 4 ? NaN : v)) }).join()).toMatch(
      /finite/,
    );
    expect(meshFaults({ ...cube, triangles: cube.triangles.map((v, i) => (i === 0 ? 99 : v)) }).join()).toMatch(
      /beyond/,
    );
    expect(meshFaults(cube, { bodies: 2 }).join()).toMatch(/1 closed skins where 2/);
    expect(() => validateMesh(inside, 'plug')).toThrow(/^plug: /);
  });
});
