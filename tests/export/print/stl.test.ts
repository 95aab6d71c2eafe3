import { describe, expect, it } from 'vitest';
import { stlBytes, stlFiles } from '../../../src/export/print/stl.js';
import { frameAlong, WORLD } from '../../../src/geometry/frame.js';
import { meshBounds, meshVolume, shellsOf } from '../../../src/geometry/mesh/measure.js';
import type { Mesh } from '../../../src/geometry/mesh/mesh.js';
import { meshFromStl } from '../../../src/geometry/mesh/stl-read.js';
import { meshFaults, unpairedEdges } from '../../../src/geometry/mesh/validate.js';
import { weldExact } from '../../../src/geometry/mesh/weld.js';
import { difference, evaluate, placed, type Solid, union } from '../../../src/geometry/solid/solid.js';
import { bar, box } from '../../../src/geometry/solid/solid-shapes.js';
import { unit } from '../../../src/geometry/vec3.js';

const knot = (turn: number): Solid => {
  const bars = [0, 1, 2, 3].map((i) =>
    placed(bar(9 + i, -60, 60), frameAlong([i, -i, 2 * i], unit([Math.cos(i + turn), Math.sin(i), 0.3]), turn)),
  );
  return difference(union(...bars), box([-2, -2, -70], [2, 2, 70]));
};

describe('binary STL', () => {
  it('obeys the published size law 84 + 50 n and does not start as a text STL does', () => {
    const bytes = stlBytes(evaluate(knot(0.1)), 'knot');
    const n = new DataView(bytes.buffer).getUint32(80, true);
    expect(bytes.length).toBe(84 + 50 * n);
    const header = new TextDecoder().decode(bytes.subarray(0, 80));
    expect(header.startsWith('solid')).toBe(false);
    expect(header).toContain('knot (millimetres)');
  });

  it('stays closed after rounding to 32 bits and welding, whatever the turn', () => {
    for (let k = 0; k < 12; k++) {
      const mesh = evaluate(knot(0.37 * k));
      const read = weldExact(meshFromStl(stlBytes(mesh, 'knot')));
      expect(meshFaults(read, { bodies: shellsOf(mesh).length })).toEqual([]);
      expect(Math.abs(meshVolume(read) - meshVolume(mesh))).toBeLessThan(0.002 * 120 * 120);
      const [a, b] = [meshBounds(mesh), meshBounds(read)];
      for (let i = 0; i < 3; i++) expect(Math.abs(a.high[i]! - b.high[i]!)).toBeLessThan(0.002);
    }
  });

  it('gives the same bytes for the same mesh', () => {
    expect(stlBytes(evaluate(knot(1)), 'a')).toEqual(stlBytes(evaluate(knot(1)), 'a'));
  });

  it('refuses an open mesh by name', () => {
    const mesh = evaluate(knot(0));
    const open: Mesh = { ...mesh, triangles: mesh.triangles.slice(3) };
    expect(unpairedEdges(open)).toBe(3);
    expect(() => stlBytes(open, 'left half')).toThrow(/left half: 3 edges/);
  });

  it('refuses bytes of another size', () => {
    expect(() => meshFromStl(new Uint8Array(100))).toThrow(/84 bytes, not 100/);
    expect(() => meshFromStl(new Uint8Array(10))).toThrow(RangeError);
  });

  it('puts jigs and collectors in their folders', () => {
    const mesh = evaluate(box([0, 0, 0], [10, 20, 30]));
    const part = { title: '', mesh, pose: WORLD, size: [10, 20, 30], tooBig: null } as const;
    const files = stlFiles([
      { ...part, name: 'plug-1', kind: 'port-plug' },
      { ...part, name: 'merge', kind: 'collector' },
    ]);
    expect(files.map((f) => [f.path, f.kind])).toEqual([
      ['jigs/plug-1.stl', 'jig'],
      ['collector/merge.stl', 'collector'],
    ]);
    expect(files[0]!.bytes.length).toBe(84 + 50 * 12);
  });
});
