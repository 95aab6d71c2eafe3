import { type Frame, frameAlong } from '../../src/geometry/frame.js';
import { endOf, segmentLength } from '../../src/geometry/path/path.js';
import type { Solid } from '../../src/geometry/solid/solid.js';
import type { Section } from '../../src/geometry/solid/solid-shapes.js';
import { CHORD_ERROR } from '../../src/geometry/tolerance.js';
import { distance2, type Vec2 } from '../../src/geometry/vec2.js';
import type { Vec3 } from '../../src/geometry/vec3.js';
import type { MadeAs } from './solid-work.js';

/** OpenCascade's bindings: no types of our own, the package is not among the project's. */
// biome-ignore lint/suspicious/noExplicitAny: the bindings are not installed with the project
export type Occ = any;

/** Where it is looked for: beside the project, or in the folder OCC_FOLDER names. */
export async function openCascade(): Promise<Occ | null> {
  const name = 'replicad-opencascadejs';
  const folder = process.env.OCC_FOLDER;
  const { createRequire } = await import('node:module');
  const { pathToFileURL } = await import('node:url');
  const { readFileSync } = await import('node:fs');
  try {
    const from = createRequire(folder ? `${folder}/package.json` : import.meta.url);
    const file = from.resolve(name);
    const made = await import(pathToFileURL(file).href);
    const wasmBinary = readFileSync(from.resolve(`${name}/wasm`));
    const init = made.default?.default ?? made.default;
    return await init({ wasmBinary });
  } catch (e) {
    if ((e as { code?: string }).code === 'MODULE_NOT_FOUND') return null;
    throw e;
  }
}

/** The solid built natively: cylinders, cones, prisms with true arcs, straights and tori of a swept tube, its own booleans. */
export function occSolid(oc: Occ, solid: Solid): Occ {
  switch (solid.kind) {
    case 'mesh':
      return occLeaf(oc, (solid.mesh as { madeAs?: MadeAs }).madeAs);
    case 'union':
      return fused(
        oc,
        solid.of.map((s) => occSolid(oc, s)),
      );
    case 'intersection':
      return solid.of.map((s) => occSolid(oc, s)).reduce((a, b) => new oc.BRepAlgoAPI_Common(a, b).Shape());
    case 'raised':
      return fused(
        oc,
        solid.rings.map((points) =>
          occLeaf(oc, { kind: 'loft', sections: [solid.from, solid.to].map((z) => ({ z, points })) }),
        ),
      );
    case 'difference':
      return cut(
        oc,
        occSolid(oc, solid.from),
        solid.minus.map((s) => occSolid(oc, s)),
      );
    case 'placed':
      return occPlaced(oc, occSolid(oc, solid.solid), solid.frame);
    case 'trimmed': {
      const size = 4000;
      const box = new oc.BRepPrimAPI_MakeBox(new oc.gp_Pnt(-size, -size, -size), new oc.gp_Pnt(size, size, 0)).Shape();
      const { point, normal } = solid.plane;
      return cut(oc, occSolid(oc, solid.solid), [occPlaced(oc, box, frameAlong(point, normal))]);
    }
    case 'foot-chamfered':
      // spares the peer a step
      return occSolid(oc, solid.solid);
    default:
      throw new Error(`OpenCascade has no ${solid.kind}`);
  }
}

/** STL, ASCII off, at the project's chord error; bytes. Turns of up to 30 degrees a chord, as many as the project's smallest rounds have. */
export function occStl(oc: Occ, shape: Occ): Uint8Array {
  new oc.BRepMesh_IncrementalMesh(shape, CHORD_ERROR, false, Math.PI / 6, false);
  if (!oc.StlAPI.Write(shape, '/part.stl', false)) throw new Error('OpenCascade wrote no STL');
  const bytes = oc.FS.readFile('/part.stl') as Uint8Array;
  oc.FS.unlink('/part.stl');
  return bytes;
}

const pnt = (oc: Occ, [x, y, z]: Vec3): Occ => new oc.gp_Pnt(x, y, z);

function listOf(oc: Occ, shapes: readonly Occ[]): Occ {
  const list = new oc.NCollection_List_TopoDS_Shape();
  for (const s of shapes) list.Append(s);
  return list;
}

/** One call for all: the fastest way it has. */
function operated(operation: Occ, oc: Occ, first: readonly Occ[], tools: readonly Occ[]): Occ {
  operation.SetArguments(listOf(oc, first));
  operation.SetTools(listOf(oc, tools));
  operation.Build(new oc.Message_ProgressRange());
  return operation.Shape();
}

const fused = (oc: Occ, shapes: readonly Occ[]): Occ =>
  shapes.length === 1 ? shapes[0] : operated(new oc.BRepAlgoAPI_Fuse(), oc, shapes.slice(0, 1), shapes.slice(1));

const cut = (oc: Occ, from: Occ, tools: readonly Occ[]): Occ =>
  tools.length === 0 ? from : operated(new oc.BRepAlgoAPI_Cut(), oc, [from], tools);

function occPlaced(oc: Occ, shape: Occ, { origin: o, x, y, z }: Frame): Occ {
  const t = new oc.gp_Trsf();
  t.SetValues(x[0], y[0], z[0], o[0], x[1], y[1], z[1], o[1], x[2], y[2], z[2], o[2]);
  return new oc.BRepBuilderAPI_Transform(shape, t, true, false).Shape();
}

function occLeaf(oc: Occ, made: MadeAs | undefined): Occ {
  if (made === undefined) throw new Error('a leaf of unknown origin');
  if (made.kind === 'sweep') return sweep(oc, made);
  const { sections } = made;
  const bottom = sections[0]!;
  const straight = sections.every((s) => s.points.every((p, i) => distance2(p, bottom.points[i]!) < 1e-9));
  const round = circleOf(bottom.points);
  if (straight) {
    const height = sections.at(-1)!.z - bottom.z;
    if (round) {
      return new oc.BRepPrimAPI_MakeCylinder(axes(oc, [round[0], round[1], bottom.z]), round[2], height).Shape();
    }
    const face = new oc.BRepBuilderAPI_MakeFace(wireOf(oc, bottom), true).Face();
    return new oc.BRepPrimAPI_MakePrism(face, new oc.gp_Vec(0, 0, height), false, true).Shape();
  }
  const thru = new oc.BRepOffsetAPI_ThruSections(true, true, 1e-6);
  for (const s of sections) thru.AddWire(wireOf(oc, s));
  thru.Build(new oc.Message_ProgressRange());
  return thru.Shape();
}

const axes = (oc: Occ, origin: Vec3, z: Vec3 = [0, 0, 1]): Occ => new oc.gp_Ax2(pnt(oc, origin), new oc.gp_Dir(...z));

function sweep(oc: Occ, { path, radius }: MadeAs & { kind: 'sweep' }): Occ {
  const pieces = path.segments
    .filter((s) => segmentLength(s) > 1e-9)
    .map((s) => {
      if (s.kind === 'straight') {
        return new oc.BRepPrimAPI_MakeCylinder(axes(oc, s.from, s.direction), radius, s.length).Shape();
      }
      const circle = new oc.gp_Circ(axes(oc, s.from, s.direction), radius);
      const wire = new oc.BRepBuilderAPI_MakeWire(new oc.BRepBuilderAPI_MakeEdge(circle).Edge()).Wire();
      const disc = new oc.BRepBuilderAPI_MakeFace(wire, true).Face();
      const axis = new oc.gp_Ax1(pnt(oc, s.centre), new oc.gp_Dir(...s.normal));
      return new oc.BRepPrimAPI_MakeRevol(disc, axis, s.angle, false).Shape();
    });
  if (pieces.length === 0) throw new Error(`an empty sweep at ${endOf(path).point.join(' ')}`);
  return fused(oc, pieces);
}

const line = (oc: Occ, a: Vec3, b: Vec3): Occ => new oc.BRepBuilderAPI_MakeEdge(pnt(oc, a), pnt(oc, b)).Edge();

const arc = (oc: Occ, a: Vec3, m: Vec3, b: Vec3): Occ =>
  new oc.BRepBuilderAPI_MakeEdge(new oc.GC_MakeArcOfCircle(pnt(oc, a), pnt(oc, m), pnt(oc, b)).Value()).Edge();

/** Fewest chords in a row on one circle that stand for an arc. */
const ARC = 4;

/** The outline of a section, runs of chords on one circle as the arcs they stand for: fewer faces than the program itself works on. */
function wireOf(oc: Occ, { z, points }: Section): Occ {
  const round = circleOf(points);
  const wire = new oc.BRepBuilderAPI_MakeWire();
  if (round) {
    const circle = new oc.gp_Circ(axes(oc, [round[0], round[1], z]), round[2]);
    wire.Add(new oc.BRepBuilderAPI_MakeEdge(circle).Edge());
    return wire.Wire();
  }
  const n = points.length;
  const at = (i: number): Vec3 => [points[i % n]![0], points[i % n]![1], z];
  for (let i = 0; i < n; ) {
    let to = i + 1;
    while (to < n && to - i < n - 1 && onOneCircle(points, i, to + 1)) to++;
    if (to - i >= ARC) wire.Add(arc(oc, at(i), at(Math.floor((i + to) / 2)), at(to)));
    else {
      to = i + 1;
      wire.Add(line(oc, at(i), at(to)));
    }
    i = to;
  }
  return wire.Wire();
}

/** Centre and radius of the circle the points go right round with equal chords; null when they do not. */
function circleOf(points: readonly Vec2[]): [x: number, y: number, radius: number] | null {
  if (points.length < 8) return null;
  const x = points.reduce((s, p) => s + p[0], 0) / points.length;
  const y = points.reduce((s, p) => s + p[1], 0) / points.length;
  const radius = distance2(points[0]!, [x, y]);
  return points.every((p) => Math.abs(distance2(p, [x, y]) - radius) < 1e-6) ? [x, y, radius] : null;
}

/** True when the points from one to another have equal chords and turn equally at each. */
function onOneCircle(points: readonly Vec2[], from: number, to: number): boolean {
  const n = points.length;
  const p = (i: number): Vec2 => points[i % n]!;
  const chord = distance2(p(from), p(from + 1));
  const turn = (i: number): number => {
    const [a, b, c] = [p(i - 1), p(i), p(i + 1)];
    return (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]);
  };
  for (let i = from; i < to; i++) {
    if (Math.abs(distance2(p(i), p(i + 1)) - chord) > 1e-6) return false;
    if (i > from && Math.abs(turn(i) - turn(from + 1)) > 1e-6 * chord) return false;
  }
  return Math.abs(turn(from + 1)) > 1e-9;
}
