import { type Frame, frameFrom, inverseFrame, matrixOf, WORLD } from '../geometry/frame.js';
import { type Bounds, meshBounds, shellsOf } from '../geometry/mesh/measure.js';
import type { Mesh } from '../geometry/mesh/mesh.js';
import { snapMesh } from '../geometry/mesh/snap.js';
import { meshFaults } from '../geometry/mesh/validate.js';
import { evaluate, footChamfered, largestBody, placed, type Solid } from '../geometry/solid/solid.js';
import type { Vec3 } from '../geometry/vec3.js';
import { sizeWords } from '../params/faults/wording.js';
import type { LengthUnit } from '../params/units.js';
import type { PartKind, SolidPart } from './part.js';

/** What makes a printed part of a solid. */
export interface ToPrint {
  readonly name: string;
  readonly kind: PartKind;
  readonly title: string;
  /** In coordinates of its own, about the origin. */
  readonly solid: Solid;
  /** Where those coordinates stand in the world. */
  readonly at: Frame;
  /** Which way it lies on the bed: frame, in the solid's coordinates, whose z points up when printed. */
  readonly up: Frame;
  /** Loose slivers smaller than this, mm3, are dropped; left out: none are, and any is an error. */
  readonly dropBelow?: number;
  /**
   * Chamfer of the first layers against the bulge of a hot, pressed first layer, mm. Left out: none, for parts whose own shape has it
   * already, as lying tubes, whose edges are taken off at their ends.
   */
  readonly chamfer?: number;
}

/**
 * Grid, mm, the points of a printed part stand on: far finer than any printer, and coarse enough that coordinates up to four
 * metres are the same as 32-bit floats. It clears the collapsed triangles a boolean leaves where faces meet in one plane.
 */
const GRID = 2 ** -12;

/** Finer grids, halved each time, tried where two skins of a part come so near that the first joins them. */
const FINER_GRIDS = 3;

/** Angle, rad, by which a part too large as it lies is turned on the bed to look for room. */
const TURN = Math.PI / 36;

/**
 * Builds the solid and lays it on the bed: lowest z 0, the middle of its footprint at x = y = 0 (to a grid step), turned about z only when it
 * would not fit otherwise. Throws RangeError when it is not one closed body.
 */
export function printedPart(part: ToPrint, bed: Vec3): SolidPart {
  const { chamfer = 0 } = part;
  const laid = placed(part.solid, inverseFrame(part.up));
  const lying = built(chamfer > 0 ? footChamfered(laid, chamfer) : laid, part.dropBelow ?? 0);
  const turn = turnThatFits(lying, bed) ?? 0;
  const turned = onSoundGrid(turnedMesh(lying, turn), part.name);
  const { low, high } = meshBounds(turned);
  const shift: Vec3 = [-onGrid((low[0] + high[0]) / 2), -onGrid((low[1] + high[1]) / 2), -low[2]];
  const mesh = movedMesh(turned, shift);
  const size: Vec3 = [high[0] - low[0], high[1] - low[1], high[2] - low[2]];
  // printed = turn(lying) + shift, so lying = turn back of (printed - shift)
  const back = frameFrom(aboutZ(-turn), { ...WORLD, origin: [-shift[0], -shift[1], -shift[2]] });
  return {
    name: part.name,
    kind: part.kind,
    title: part.title,
    mesh,
    pose: frameFrom(frameFrom(part.at, part.up), back),
    size,
    tooBig: tooBigFor(size, bed),
  };
}

/** Why a part of that size does not fit the bed, in words of a plan's unit, or null when it does; x and y of the bed may be swapped. */
export function tooBigFor(size: Vec3, bed: Vec3, unit: LengthUnit = 'mm'): string | null {
  if (fits(size, bed)) return null;
  return `${sizeWords(size, unit, 0)} does not fit the bed of ${sizeWords(bed, unit, 0)}`;
}

/**
 * A solid as one closed body whose points 32-bit floats hold; loose slivers smaller than `dropBelow` mm3 are dropped. Throws RangeError,
 * naming it, when it is not one.
 */
export const soundBody = (solid: Solid, name: string, dropBelow = 0): Mesh =>
  onSoundGrid(built(solid, dropBelow), name);

function built(solid: Solid, dropBelow: number): Mesh {
  const mesh = evaluate(solid);
  const loose = shellsOf(mesh).slice(1);
  const slivers = loose.length > 0 && loose.every((s) => Math.abs(s.volume) < dropBelow);
  return slivers ? evaluate(largestBody(solid)) : mesh;
}

/** The mesh on the coarsest grid that keeps it closed and of one body. Throws RangeError when none does, with the faults on the first. */
function onSoundGrid(mesh: Mesh, name: string): Mesh {
  const tried = snapMesh(mesh, GRID);
  const faults = meshFaults(tried, { bodies: 1 });
  if (faults.length === 0) return tried;
  for (let k = 1; k <= FINER_GRIDS; k++) {
    const { low, high } = meshBounds(mesh);
    if (Math.max(...high, ...low.map((v) => -v)) > (GRID / 2 ** k) * 2 ** 24) break;
    const finer = snapMesh(mesh, GRID / 2 ** k);
    if (meshFaults(finer, { bodies: 1 }).length === 0) return finer;
  }
  throw new RangeError(`${name}: ${faults.join('; ')}`);
}

const onGrid = (v: number): number => Math.round(v / GRID) * GRID;

const fits = (size: Vec3, bed: Vec3): boolean =>
  size[2] <= bed[2] &&
  Math.max(size[0], size[1]) <= Math.max(bed[0], bed[1]) &&
  Math.min(size[0], size[1]) <= Math.min(bed[0], bed[1]);

/** True when the mesh, z up, fits the bed turned about z in one of the ways a part is tried. */
export const fitsTurned = (mesh: Mesh, bed: Vec3): boolean => turnThatFits(mesh, bed) !== null;

/** The first turn about z, rad, that makes the mesh fit the bed; null when none does. */
function turnThatFits(mesh: Mesh, bed: Vec3): number | null {
  for (let k = 0; k * TURN < Math.PI; k++) {
    if (fits(extent(meshBounds(turnedMesh(mesh, k * TURN))), bed)) return k * TURN;
  }
  return null;
}

const extent = ({ low, high }: Bounds): Vec3 => [high[0] - low[0], high[1] - low[1], high[2] - low[2]];

const aboutZ = (turn: number): Frame => {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  return { origin: [0, 0, 0], x: [c, s, 0], y: [-s, c, 0], z: [0, 0, 1] };
};

const turnedMesh = (mesh: Mesh, turn: number): Mesh => (turn === 0 ? mesh : placedMesh(mesh, aboutZ(turn)));

function movedMesh(mesh: Mesh, by: Vec3): Mesh {
  return { ...mesh, positions: mesh.positions.map((v, i) => v + by[i % 3]!) };
}

/** A mesh taken from frame coordinates to the world. */
export function placedMesh(mesh: Mesh, frame: Frame): Mesh {
  const m = matrixOf(frame);
  const positions = new Float64Array(mesh.positions.length);
  for (let i = 0; i < positions.length; i += 3) {
    const [x, y, z] = [mesh.positions[i]!, mesh.positions[i + 1]!, mesh.positions[i + 2]!];
    for (let k = 0; k < 3; k++) positions[i + k] = m[k]! * x + m[4 + k]! * y + m[8 + k]! * z + m[12 + k]!;
  }
  return { ...mesh, positions };
}

/** A name safe for files: lower-case letters, digits and single hyphens, and none that some systems keep for devices. */
export const fileName = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    // names of devices, whatever the ending of the file. Source: Microsoft, "Naming Files, Paths, and Namespaces"
    .replace(/^(?:con|prn|aux|nul|com\d|lpt\d)$/, '$&-file');

/**
 * Names of the collectors, safe for files and each its own: those without a Latin letter or figure, or that look the same once
 * made safe, are told apart by their number.
 */
export function collectorFiles(collectors: readonly { readonly name: string }[]): string[] {
  const names = collectors.map((c) => fileName(c.name));
  return names.map((name, i) => {
    if (name !== '' && names.indexOf(name) === names.lastIndexOf(name)) return name;
    return `${name || 'collector'}-no${i + 1}`;
  });
}
