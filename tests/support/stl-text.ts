import type { Vec3 } from '../../src/geometry/vec3.js';

export type Triangle = readonly [Vec3, Vec3, Vec3];

/** A tetrahedron with three edges of a length along the axes. */
export function tetrahedron(edge: number): Triangle[] {
  const [o, x, y, z]: readonly Vec3[] = [
    [0, 0, 0],
    [edge, 0, 0],
    [0, edge, 0],
    [0, 0, edge],
  ];
  return [
    [o!, y!, x!],
    [o!, x!, z!],
    [o!, z!, y!],
    [x!, y!, z!],
  ];
}

/** Triangles as a text STL, written as the format's description has it. */
export function stlText(triangles: readonly Triangle[], name = 'part'): Uint8Array {
  const facets = triangles.map(
    (t) =>
      `  facet normal 0 0 0\n    outer loop\n${t.map((c) => `      vertex ${c.join(' ')}\n`).join('')}    endloop\n  endfacet\n`,
  );
  return new TextEncoder().encode(`solid ${name}\n${facets.join('')}endsolid ${name}\n`);
}

/** Triangles as a binary STL: 80 bytes of header, the count, then normal, corners and an attribute for each. */
export function stlBinary(triangles: readonly Triangle[], header = ''): Uint8Array {
  const bytes = new Uint8Array(84 + 50 * triangles.length);
  bytes.set(new TextEncoder().encode(header).subarray(0, 80));
  const view = new DataView(bytes.buffer);
  view.setUint32(80, triangles.length, true);
  triangles.forEach((t, i) => {
    t.flat().forEach((v, k) => {
      view.setFloat32(84 + 50 * i + 12 + 4 * k, v, true);
    });
  });
  return bytes;
}
