import { cosSinDegrees } from '../geometry/angle.js';
import type { Frame } from '../geometry/frame.js';
import { pointFrom } from '../geometry/frame.js';
import { meshBounds } from '../geometry/mesh/measure.js';
import type { Mesh } from '../geometry/mesh/mesh.js';
import { readStl } from '../geometry/mesh/stl-read.js';
import type { Vec3 } from '../geometry/vec3.js';
import type { PlanFault } from './faults/plan-problem.js';
import { lengthWords, show } from './faults/wording.js';
import { LARGEST_LENGTH, LARGEST_MESH_FILE, MOST_TRIANGLES } from './limits.js';
import type { Draft } from './resolve/draft.js';
import type { PlanFile } from './schema/plan-file.js';

/**
 * The bytes of a file a plan names, by its path as the plan has it, and the most it may have: what has more is refused before it is
 * read. May throw; the reason is then told at the field.
 */
export type ReadFile = (path: string, most: number) => Uint8Array;

/** The scans a plan names, in the world, by their place among its keep-outs, and what is wrong with them. */
export interface Scans {
  readonly meshes: ReadonlyMap<number, Mesh>;
  readonly faults: readonly PlanFault[];
}

type Scan = Extract<PlanFile['keep_out'][number], { kind: 'mesh' }>;

/** Reads every scan of a plan; a file that stands in it twice is read once. Never throws. */
export function readScans({ sections }: Draft, readFile: ReadFile | undefined): Scans {
  const meshes = new Map<number, Mesh>();
  const faults: PlanFault[] = [];
  const files = new Map<string, Mesh>();
  let triangles = 0;
  (sections.keep_out ?? []).forEach((k, i) => {
    if (k.kind !== 'mesh') return;
    const fault = (field: string, message: string) => faults.push({ path: ['keep_out', i, field], message });
    try {
      const mesh = files.get(k.file) ?? meshIn(k.file, readFile);
      files.set(k.file, mesh);
      triangles += mesh.triangles.length / 3;
      if (triangles > MOST_TRIANGLES) {
        fault('file', `the scans of this plan have more than ${MOST_TRIANGLES} triangles together; thin them out`);
        return;
      }
      const inWorld = posed(mesh, k);
      const wrongUnit = sizeFault(inWorld, k, sections.units ?? 'mm');
      if (wrongUnit !== null) fault('unit', wrongUnit);
      else meshes.set(i, inWorld);
    } catch (error) {
      fault('file', `cannot read ${show(k.file)}: ${error instanceof Error ? error.message : String(error)}`);
    }
  });
  return { meshes, faults };
}

function meshIn(file: string, readFile: ReadFile | undefined): Mesh {
  if (readFile === undefined) throw new RangeError('this reader of plans was given no way to open files');
  const bytes = readFile(file, LARGEST_MESH_FILE);
  if (bytes.length > LARGEST_MESH_FILE) {
    throw new RangeError(`it has ${bytes.length} bytes; a scan has at most ${LARGEST_MESH_FILE}`);
  }
  return readStl(bytes, MOST_TRIANGLES);
}

const UNIT = { mm: 1, in: 25.4, m: 1000 } as const;

/** The mesh in mm, turned about its own origin and moved to its place. */
function posed(mesh: Mesh, { unit, at, turn }: Scan): Mesh {
  const frame = turnedFrame(at, turn);
  const k = UNIT[unit];
  if (k === 1 && [...at, ...turn].every((v) => v === 0)) return mesh;
  const positions = new Float64Array(mesh.positions.length);
  for (let i = 0; i < positions.length; i += 3) {
    const [x, y, z] = pointFrom(frame, [
      mesh.positions[i]! * k,
      mesh.positions[i + 1]! * k,
      mesh.positions[i + 2]! * k,
    ]);
    positions[i] = x;
    positions[i + 1] = y;
    positions[i + 2] = z;
  }
  return { positions, triangles: mesh.triangles };
}

/** Where the axes of a body come to lie that is turned about x, then y, then z of the world, degrees; quarter turns are exact. */
function turnedFrame(origin: Vec3, [aboutX, aboutY, aboutZ]: Vec3): Frame {
  const [cx, sx] = cosSinDegrees(aboutX);
  const [cy, sy] = cosSinDegrees(aboutY);
  const [cz, sz] = cosSinDegrees(aboutZ);
  const turn = ([x, y, z]: Vec3): Vec3 => {
    const [y1, z1] = [y * cx - z * sx, y * sx + z * cx];
    const [x2, z2] = [x * cy + z1 * sy, z1 * cy - x * sy];
    return [x2 * cz - y1 * sz, x2 * sz + y1 * cz, z2];
  };
  return { origin, x: turn([1, 0, 0]), y: turn([0, 1, 0]), z: turn([0, 0, 1]) };
}

/** Smaller than any part worth a scan, mm. */
const LEAST_EXTENT = 1;

/** A scan far too large or too small for an engine bay: its unit is most likely wrong. Null when it may be right. */
function sizeFault(mesh: Mesh, { unit, file }: Scan, planUnit: 'mm' | 'in'): string | null {
  const { low, high } = meshBounds(mesh);
  const words = (mm: number) => lengthWords(mm, planUnit);
  const farthest = Math.max(...low.map(Math.abs), ...high.map(Math.abs));
  if (farthest > LARGEST_LENGTH) {
    return `${show(file)} in ${unit} reaches ${words(farthest)} from the origin, over ${words(LARGEST_LENGTH)}: is this its unit, and is at its place?`;
  }
  const extent = Math.max(...high.map((v, i) => v - low[i]!));
  if (extent >= LEAST_EXTENT) return null;
  return `${show(file)} in ${unit} is only ${words(extent)} long: is this its unit?`;
}
