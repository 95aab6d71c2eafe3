import load, { type Kernel } from '@3mfconsortium/lib3mf';
import { cosSinDegrees } from '../../geometry/angle.js';
import type { Mesh } from '../../geometry/mesh/mesh.js';
import { validateMesh } from '../../geometry/mesh/validate.js';
import type { SolidPart } from '../../parts/part.js';
import type { LaidPart, PrintPlate } from '../../parts/print-plates/print-plates.js';
import { CAUTIONS } from '../cautions.js';
import type { OutputFile } from '../output-file.js';
import { plainText } from '../xml-text.js';

/** Build plates as files for the printer's software: print/plate-1.3mf and so on. `title` is the plan's name. */
export async function plateFiles(plates: readonly PrintPlate[], title: string): Promise<OutputFile[]> {
  if (plates.length === 0) return [];
  const kernel = await load();
  return plates.map((plate) => ({
    path: `print/${plate.name}.3mf`,
    kind: 'print-plate',
    bytes: plateBytes(kernel, plate, title),
  }));
}

type Hold = <T extends { delete(): void }>(held: T) => T;

/**
 * A build plate as 3MF (3MF Core Specification 1.3) in millimetres: every part one object by its name, every copy one item
 * where it lies. The same plate gives the same bytes: identifiers, which the library would draw by lot, are counted instead.
 */
function plateBytes(kernel: Kernel, plate: PrintPlate, title: string): Uint8Array {
  const kept: { delete(): void }[] = [];
  const hold: Hold = (held) => {
    kept.push(held);
    return held;
  };
  try {
    const wrapper = hold(new kernel.CWrapper());
    const model = hold(wrapper.CreateModel());
    const number = counter();
    model.SetUnit(kernel.eModelUnit.MilliMeter);
    model.SetBuildUUID(number());
    const facts = hold(model.GetMetaDataGroup());
    const tell = (key: string, value: string): void => {
      hold(facts.AddMetaData('', key, plainText(value), 'xs:string', true));
    };
    tell('Title', `${title}: ${plate.name}`);
    tell('Application', 'evenrun');
    tell('Description', CAUTIONS.join(' '));
    const parts = [...new Set(plate.parts.map((l) => l.part))];
    const objects = new Map(parts.map((part) => [part, objectOf(kernel, model, part, number(), hold)]));
    for (const laid of plate.parts) {
      const item = hold(model.AddBuildItem(objects.get(laid.part)!, hold(placeOf(wrapper, laid))));
      item.SetUUID(number());
    }
    hold(model.QueryWriter('3mf')).WriteToFile(FILE);
    const bytes = Uint8Array.from(kernel.FS.readFile(FILE));
    kernel.FS.unlink(FILE);
    return bytes;
  } finally {
    for (const held of kept.reverse()) held.delete();
  }
}

/** Where the library writes, in memory: its way to a buffer does not work from JavaScript (2.4.1). */
const FILE = '/plate.3mf';

type Model = ReturnType<InstanceType<Kernel['CWrapper']>['CreateModel']>;

function objectOf(kernel: Kernel, model: Model, part: SolidPart, uuid: string, hold: Hold) {
  const mesh = asFloats(part);
  const object = hold(model.AddMeshObject());
  object.SetName(plainText(`${part.name}: ${part.title}`));
  object.SetPartNumber(part.name);
  object.SetUUID(uuid);
  const [point, triangle] = [hold(new kernel.sPosition()), hold(new kernel.sTriangle())];
  const { positions: p, triangles: t } = mesh;
  for (let i = 0; i < p.length; i += 3) {
    point.set_Coordinates0(p[i]!);
    point.set_Coordinates1(p[i + 1]!);
    point.set_Coordinates2(p[i + 2]!);
    object.AddVertex(point);
  }
  for (let i = 0; i < t.length; i += 3) {
    triangle.set_Indices0(t[i]!);
    triangle.set_Indices1(t[i + 1]!);
    triangle.set_Indices2(t[i + 2]!);
    object.AddTriangle(triangle);
  }
  return object;
}

/** The part's mesh in the library's 32-bit floats. The library takes any triangles, so where they change the mesh is proved again. */
function asFloats({ mesh, name }: SolidPart): Mesh {
  const positions = mesh.positions.map(Math.fround);
  if (positions.every((v, i) => v === mesh.positions[i])) return mesh;
  validateMesh({ ...mesh, positions }, name, { bodies: 1 });
  return { ...mesh, positions };
}

/** A 3MF transform multiplies a row vector: its first row is where x goes. */
function placeOf(wrapper: InstanceType<Kernel['CWrapper']>, { turn, by }: LaidPart) {
  const [cos, sin] = cosSinDegrees(turn);
  const place = wrapper.GetIdentityTransform();
  place.set_Fields_0_0(cos);
  place.set_Fields_0_1(sin);
  place.set_Fields_1_0(-sin);
  place.set_Fields_1_1(cos);
  place.set_Fields_3_0(by[0]);
  place.set_Fields_3_1(by[1]);
  return place;
}

/** Identifiers of the production extension, counted. */
function counter(): () => string {
  let n = 0;
  return () => `00000000-0000-4000-8000-${(++n).toString(16).padStart(12, '0')}`;
}
