import writer from '@jscad/stl-serializer/CSGToStlb.js';
import { type Bounds, meshBounds, shellsOf, triangleCount } from '../../geometry/mesh/measure.js';
import type { Mesh } from '../../geometry/mesh/mesh.js';
import { snapMesh } from '../../geometry/mesh/snap.js';
import { asStlReaderSees, meshFaults, validateMesh } from '../../geometry/mesh/validate.js';
import { weldExact } from '../../geometry/mesh/weld.js';
import { geom3FromMesh } from '../../geometry/solid/jscad-mesh.js';
import { type PartKind, type SolidPart, servesOnBench } from '../../parts/part.js';
import type { OutputFile, OutputKind } from '../output-file.js';

/** Length of a binary STL's header and of its triangle count, bytes. */
const HEADER = 80;
const COUNT = 4;

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
    const folder = kind !== 'jig' ? 'collector' : servesOnBench(part) ? 'jigs/bench' : 'jigs';
    return { path: `${folder}/${part.name}.stl`, kind, bytes: stlBytes(part.mesh, part.name) };
  });
}

/**
 * Binary STL of a closed mesh, mm. What it says is read back the way slicers do, 32-bit floats and points welded by their
 * coordinates: a mesh whose coordinates are such floats and whose points are all apart is written as it is; any other is moved
 * to a grid that such floats hold, and must there be closed with as many skins as before.
 * The same mesh and name give the same bytes. Throws RangeError, naming the part, when the mesh is not sound.
 */
export const stlBytes = (mesh: Mesh, name: string): Uint8Array => serialized([asRead(mesh, name)], name);

/** A closed mesh and what it is called in a fault. */
export interface NamedMesh {
  readonly name: string;
  readonly mesh: Mesh;
}

/** Binary STL of several bodies one after the other, mm, each sound for itself; they may touch. Throws as `stlBytes` does. */
export const stlOfBodies = (bodies: readonly NamedMesh[], name: string): Uint8Array =>
  serialized(
    bodies.map((b) => asRead(b.mesh, b.name)),
    name,
  );

/** The mesh with coordinates that 32-bit floats hold: itself, or on a grid. Throws RangeError, naming the part, when it is not sound. */
function asRead(mesh: Mesh, name: string): Mesh {
  validateMesh(mesh, name);
  if (isAsRead(mesh)) return mesh;
  let faults: readonly string[] = [];
  for (const spacing of floatGrids(meshBounds(mesh))) {
    const snapped = snapMesh(mesh, spacing);
    faults = meshFaults(asStlReaderSees(snapped), { bodies: shellsOf(mesh).length });
    if (faults.length === 0) return snapped;
  }
  throw new RangeError(`${name} as written to STL: ${faults.join('; ')}`);
}

/** True when a reader of the STL gets the very same points. */
const isAsRead = (mesh: Mesh): boolean =>
  mesh.positions.every((v) => Math.fround(v) === v) && weldExact(mesh).positions.length === mesh.positions.length;

/** Written by the serializer's own writer, a body at a time; the rounding that its front does first would move points off their grid. */
function serialized(bodies: readonly Mesh[], name: string): Uint8Array {
  const records = bodies.map((mesh) => recordsOf(mesh));
  const bytes = new Uint8Array(records.reduce((sum, r) => sum + r.length, HEADER + COUNT));
  new DataView(bytes.buffer).setUint32(
    HEADER,
    bodies.reduce((sum, mesh) => sum + triangleCount(mesh), 0),
    true,
  );
  let at = HEADER + COUNT;
  for (const record of records) {
    bytes.set(record, at);
    at += record.length;
  }
  bytes.set(headerText(name));
  return bytes;
}

/** The triangles of a mesh as a binary STL holds them, without header and count. */
function recordsOf(mesh: Mesh): Uint8Array {
  const chunks = writer.serializeBinary([geom3FromMesh(mesh)], {}).map((b) => new Uint8Array(b));
  const whole = new Uint8Array(chunks.reduce((sum, c) => sum + c.length, 0));
  let at = 0;
  for (const chunk of chunks) {
    whole.set(chunk, at);
    at += chunk.length;
  }
  return whole.subarray(HEADER + COUNT);
}

/** Header: who wrote it, what it is and its unit, in ASCII, filled with spaces; never the word a text STL starts with. */
function headerText(name: string): Uint8Array {
  const text = `evenrun ${name} (millimetres)`.replace(/[^\x20-\x7e]/g, '?').slice(0, HEADER);
  return new TextEncoder().encode(text.padEnd(HEADER, ' '));
}

/** The grid tried first, mm, and the most that are tried: where two skins nearly touch, a point can fall on the wrong side of one grid but not of the next. */
const FIRST_GRID = 2 ** -12;
const MOST_GRIDS = 8;

/** Grids, mm, whose points 32-bit floats hold within the bounds: from the first on, or the finest there is, halved each time. */
function floatGrids({ low, high }: Bounds): number[] {
  const most = Math.max(...high, ...low.map((v) => -v));
  const finest = 2 ** Math.ceil(Math.log2(most / 2 ** 24));
  const grids: number[] = [Math.max(FIRST_GRID, finest)];
  while (grids.length < MOST_GRIDS && grids.at(-1)! / 2 >= finest) grids.push(grids.at(-1)! / 2);
  return grids;
}
