import serializer from '@jscad/stl-serializer';
import { geom3FromMesh } from '../geometry/jscad-mesh.js';
import type { Mesh } from '../geometry/mesh.js';
import { type Bounds, meshBounds, shellsOf } from '../geometry/mesh-measure.js';
import { snapMesh } from '../geometry/mesh-snap.js';
import { meshFaults, validateMesh } from '../geometry/mesh-validate.js';
import { weldExact } from '../geometry/mesh-weld.js';
import { meshFromStl } from '../geometry/stl-read.js';
import { BENCH_KINDS, type PartKind, type SolidPart } from '../parts/part.js';
import type { OutputFile, OutputKind } from './output-file.js';

/** Length of a binary STL's header, bytes. */
const HEADER = 80;

/** Kinds of files of parts that are no jigs. */
const KINDS: Partial<Record<PartKind, OutputKind>> = {
  collector: 'collector',
  'collector-piece': 'collector',
  'merge-gauge': 'merge-gauge',
  'saw-block': 'saw-block',
};

/** Files of printed parts: jigs/<name>.stl, jigs/bench/<name>.stl and collector/<name>.stl, in the order given. */
export function stlFiles(parts: readonly SolidPart[]): OutputFile[] {
  return parts.map((part) => {
    const kind = KINDS[part.kind] ?? 'jig';
    const folder = kind !== 'jig' ? 'collector' : BENCH_KINDS.includes(part.kind) ? 'jigs/bench' : 'jigs';
    return { path: `${folder}/${part.name}.stl`, kind, bytes: stlBytes(part.mesh, part.name) };
  });
}

/**
 * Binary STL of a closed mesh, mm. The mesh is first moved to a grid of about a hundred-thousandth of its size, so that
 * neither the serializer's own rounding nor that to 32-bit floats can open it; what was written is then read back the way
 * slicers do, points welded by their coordinates, and must be closed with as many skins as before.
 * The same mesh and name give the same bytes. Throws RangeError, naming the part, when the mesh is not sound.
 */
export function stlBytes(mesh: Mesh, name: string): Uint8Array {
  validateMesh(mesh, name);
  let faults: readonly string[] = [];
  for (const spacing of serializerGrids(meshBounds(mesh))) {
    const bytes = serialized(snapMesh(mesh, spacing), name);
    faults = meshFaults(weldExact(meshFromStl(bytes)), { bodies: shellsOf(mesh).length });
    if (faults.length === 0) return bytes;
  }
  throw new RangeError(`${name} as written to STL: ${faults.join('; ')}`);
}

function serialized(mesh: Mesh, name: string): Uint8Array {
  const chunks = serializer.serialize({ binary: true }, geom3FromMesh(mesh)).map((b) => new Uint8Array(b));
  const bytes = new Uint8Array(chunks.reduce((sum, c) => sum + c.length, 0));
  let at = 0;
  for (const chunk of chunks) {
    bytes.set(chunk, at);
    at += chunk.length;
  }
  bytes.set(headerText(name));
  return bytes;
}

/** Header: who wrote it, what it is and its unit, in ASCII, filled with spaces; never the word a text STL starts with. */
function headerText(name: string): Uint8Array {
  const text = `evenrun ${name} (millimetres)`.replace(/[^\x20-\x7e]/g, '?').slice(0, HEADER);
  return new TextEncoder().encode(text.padEnd(HEADER, ' '));
}

/** Grids tried before a mesh is refused: where two skins nearly touch, a point can fall on the wrong side of one grid but not of the next. */
const MOST_GRIDS = 8;

/**
 * Grids, mm, that the serializer's rounding leaves alone. It rounds to 1e-5 of the mean of the three extents, so a mesh whose
 * extents sum to exactly 300,000 grid steps is already on that grid; spacings near it are tried in turn.
 */
function serializerGrids({ low, high }: Bounds): number[] {
  const whole = 300_000;
  const first = [0, 1, 2].reduce((sum, i) => sum + high[i]! - low[i]!, 0) / whole;
  const grids: number[] = [];
  for (let k = 0; k < 2_000 && grids.length < MOST_GRIDS; k++) {
    const spacing = first * (1 + (k % 2 === 0 ? -1 : 1) * Math.ceil(k / 2) * 2e-7);
    const steps = [0, 1, 2].reduce((n, i) => n + Math.round(high[i]! / spacing) - Math.round(low[i]! / spacing), 0);
    if (steps === whole) grids.push(spacing);
  }
  return grids.length > 0 ? grids : [first];
}
