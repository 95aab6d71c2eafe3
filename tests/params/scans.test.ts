import { describe, expect, test } from 'vitest';
import { meshBounds } from '../../src/geometry/mesh/measure.js';
import { LARGEST_MESH_FILE, MOST_TRIANGLES } from '../../src/params/limits.js';
import type { KeepOut } from '../../src/params/plan.js';
import { readPlan } from '../../src/params/read-plan.js';
import { stlBinary, stlText, type Triangle, tetrahedron } from '../support/stl-text.js';
import { BASE } from './base-plan.js';

const scan = (fields: string, name = 'bay') => `  - { name: ${name}, kind: mesh, ${fields} }\n`;
const withScan = (...list: string[]) => `${BASE}keep_out:\n${list.join('')}`;

type MeshKeepOut = Extract<KeepOut, { kind: 'mesh' }>;

/** The scans of a plan whose files all hold these bytes. */
function scansOf(text: string, bytes: Uint8Array): MeshKeepOut[] {
  const read = readPlan(text, 'plan.yaml', () => bytes);
  if (!read.ok) throw new Error(read.text);
  return read.plan.keepOuts.filter((k) => k.kind === 'mesh');
}

function faults(text: string, readFile?: (path: string) => Uint8Array): string[] {
  const read = readPlan(text, 'plan.yaml', readFile);
  return read.ok ? [] : read.problems.map((p) => `${p.line}:${p.column} ${p.path}: ${p.message}`);
}

describe('a scan as a keep-out', () => {
  test('is read by the path the plan names and comes in mm, with its gap', () => {
    const paths: string[] = [];
    const read = readPlan(withScan(scan('file: scans/left side.stl, unit: m, clearance: 12')), 'plan.yaml', (path) => {
      paths.push(path);
      return stlBinary(tetrahedron(0.25));
    });
    expect(paths).toEqual(['scans/left side.stl']);
    const [bay] = read.ok ? read.plan.keepOuts : [];
    expect(bay).toMatchObject({ name: 'bay', kind: 'mesh', file: 'scans/left side.stl', clearance: 12, heat: false });
    expect(meshBounds((bay as MeshKeepOut).mesh)).toEqual({ low: [0, 0, 0], high: [250, 250, 250] });
  });

  test.each([
    ['mm', 40],
    ['in', 1016],
    ['m', 4000],
  ] as const)('in %s', (unit, size) => {
    const [bay] = scansOf(withScan(scan(`file: a.stl, unit: ${unit}`)), stlText(tetrahedron(unit === 'm' ? 4 : 40)));
    expect(meshBounds(bay!.mesh).high[0]).toBeCloseTo(size, 9);
  });

  test('is turned about x, then y, then z of the world, then moved; quarter turns are exact', () => {
    const needle: Triangle = [
      [0, 0, 0],
      [10, 0, 0],
      [0, 20, 30],
    ];
    const points = (turn: string) =>
      [
        ...scansOf(withScan(scan(`file: a.stl, unit: mm, at: [1, 2, 3], turn: ${turn}`)), stlText([needle]))[0]!.mesh
          .positions,
      ].map((v, i) => v - [1, 2, 3][i % 3]! + 0);
    expect(points('[0, 0, 0]')).toEqual([0, 0, 0, 10, 0, 0, 0, 20, 30]);
    expect(points('[90, 0, 0]')).toEqual([0, 0, 0, 10, 0, 0, 0, -30, 20]);
    expect(points('[0, 90, 0]')).toEqual([0, 0, 0, 0, 0, -10, 30, 20, 0]);
    expect(points('[0, 0, 90]')).toEqual([0, 0, 0, 0, 10, 0, -20, 0, 30]);
    // About x first: (0, 20, 30) to (0, -30, 20); then about y: to (20, -30, 0); then about z: to (30, 20, 0).
    expect(points('[90, 90, 90]')).toEqual([0, 0, 0, 0, 0, -10, 30, 20, 0]);
    expect(Math.hypot(...points('[12, 34, 56]').slice(6))).toBeCloseTo(Math.hypot(20, 30), 9);
  });

  test('need not be closed, and stands in a plan as often as wanted, read once', () => {
    let opened = 0;
    const read = readPlan(
      withScan(scan('file: a.stl, unit: mm', 'left'), scan('file: a.stl, unit: mm, at: [0, 0, 500]', 'right')),
      'plan.yaml',
      () => {
        opened++;
        return stlText(tetrahedron(40).slice(2));
      },
    );
    expect(opened).toBe(1);
    expect(read.ok && read.plan.keepOuts.map((k) => k.name)).toEqual(['left', 'right']);
  });

  test.each([
    ['file: a.stl', 'unit: missing; expected mm, in or m'],
    ['file: a.stl, unit: cm', 'unit: expected mm, in or m, found "cm"'],
    ['unit: mm', 'file: missing; expected a file such as "engine-bay.stl": text of 1 to 400 characters'],
    ['file: "", unit: mm', 'file: expected a file such as "engine-bay.stl": text of 1 to 400 characters, found ""'],
    ['file: a.stl, unit: mm, turn: [0, 0]', 'turn: expected at least 3 entries, found [0,0]'],
    ['file: a.stl, unit: mm, turn: [0, 400, 0]', 'turn.1: expected an angle from -360 to 360 degrees, found 400'],
    ['file: a.stl, unit: mm, at: here', 'at: expected a list such as [1, 2, 3], found "here"'],
    [
      'file: a.stl, unit: mm, scale: 2',
      'scale: unknown field; this section has kind, name, clearance, heat, file, unit, at and turn',
    ],
  ])('%j is refused', (fields, message) => {
    const found = faults(withScan(scan(fields)), () => stlText(tetrahedron(40)));
    expect(found.map((f) => f.replace(/^\S+ keep_out\.0\./, ''))).toEqual([message]);
  });
});

describe('a scan that cannot be had', () => {
  const text = withScan(scan('file: a.stl, unit: mm'));
  const place = '33:36 keep_out.0.file: cannot read "a.stl": ';

  test('no way to open files', () => {
    expect(faults(text)).toEqual([`${place}this reader of plans was given no way to open files`]);
  });

  test('a reader that throws is quoted, whatever it throws', () => {
    const throwing = (thrown: unknown) => () => {
      throw thrown;
    };
    expect(faults(text, throwing(new Error('no such file')))).toEqual([`${place}no such file`]);
    expect(faults(text, throwing('gone\nfishing'))).toEqual([`${place}gone\\u000afishing`]);
    expect(faults(text, throwing(undefined))).toEqual([`${place}undefined`]);
  });

  test('a file that is no STL, is empty, or has a corner that is no number', () => {
    expect(faults(text, () => new Uint8Array(10))[0]).toBe(
      `${place}this is no STL: a binary STL has 84 bytes, not 10, or more`,
    );
    expect(faults(text, () => stlBinary([]))).toEqual([`${place}it has no triangles`]);
    expect(
      faults(text, () =>
        stlBinary([
          [
            [0, 0, 0],
            [Number.NaN, 0, 0],
            [0, 9, 0],
          ],
        ]),
      ),
    ).toEqual([`${place}triangle 1 has a corner that is no number`]);
  });

  test('a file larger than any scan', () => {
    const huge = { length: LARGEST_MESH_FILE + 1 } as Uint8Array;
    expect(faults(text, () => huge)).toEqual([
      `${place}it has ${LARGEST_MESH_FILE + 1} bytes; a scan has at most ${LARGEST_MESH_FILE}`,
    ]);
  });

  test('more triangles than two million, in one or together', () => {
    const bytes = (n: number) => {
      const file = new Uint8Array(84 + 50 * n);
      const view = new DataView(file.buffer);
      view.setUint32(80, n, true);
      for (let i = 0; i < n; i++) {
        view.setFloat32(84 + 50 * i + 24, 9, true);
        view.setFloat32(84 + 50 * i + 40, 9, true);
      }
      return file;
    };
    expect(faults(text, () => bytes(MOST_TRIANGLES + 1))).toEqual([
      `${place}it has more than ${MOST_TRIANGLES} triangles; thin it out`,
    ]);
    const both = withScan(scan('file: a.stl, unit: mm', 'a'), scan('file: b.stl, unit: mm', 'b'));
    expect(faults(both, (path) => (path === 'a.stl' ? bytes(MOST_TRIANGLES) : stlText(tetrahedron(9))))).toEqual([
      `34:34 keep_out.1.file: the scans of this plan have more than ${MOST_TRIANGLES} triangles together; thin them out`,
    ]);
  });

  test('a size no engine bay has: the unit is doubted', () => {
    expect(faults(text.replace('unit: mm', 'unit: m'), () => stlText(tetrahedron(40)))).toEqual([
      '33:49 keep_out.0.unit: "a.stl" in m reaches 40000 mm from the origin, over 10000 mm: is this its unit, and is at its place?',
    ]);
    expect(faults(text, () => stlText(tetrahedron(0.4)))).toEqual([
      '33:49 keep_out.0.unit: "a.stl" in mm is only 0.4 mm long: is this its unit?',
    ]);
  });

  test('is told together with everything else', () => {
    expect(faults(text.replace('od: 42.4', 'od: x'))).toEqual([
      '21:7 tube.od: expected a length such as 44.45 or "1.75 in", found "x"',
      `${place}this reader of plans was given no way to open files`,
    ]);
  });
});
