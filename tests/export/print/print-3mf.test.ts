import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { plateFiles } from '../../../src/export/print/print-3mf.js';
import { frameAlong, WORLD } from '../../../src/geometry/frame.js';
import { meshVolume, triangleCount } from '../../../src/geometry/mesh/measure.js';
import { union } from '../../../src/geometry/solid/solid.js';
import { box } from '../../../src/geometry/solid/solid-shapes.js';
import type { SolidPart } from '../../../src/parts/part.js';
import { printPlates } from '../../../src/parts/print-plates/print-plates.js';
import { printedPart } from '../../../src/parts/printed-part.js';
import { PRINT } from '../../support/print-plan.js';
import { requireTool } from '../../support/tools.js';

/** What Python's own zip and XML readers make of a 3MF: every object with the state of its mesh, every item where it lies. */
const READER = `
import json, sys, zipfile, collections
import xml.etree.ElementTree as ET
NS = '{http://schemas.microsoft.com/3dmanufacturing/core/2015/02}'
z = zipfile.ZipFile(sys.argv[1])
assert z.testzip() is None
rels = ET.fromstring(z.read('_rels/.rels'))
target = [r.get('Target') for r in rels if r.get('Type').endswith('/3dmodel')][0].lstrip('/')
assert 'model' in [d.get('Extension') for d in ET.fromstring(z.read('[Content_Types].xml'))]
m = ET.fromstring(z.read(target))
objects = []
for o in m.iter(NS + 'object'):
    v = [tuple(float(p.get(k)) for k in 'xyz') for p in o.iter(NS + 'vertex')]
    t = [tuple(int(p.get(k)) for k in ('v1', 'v2', 'v3')) for p in o.iter(NS + 'triangle')]
    edges = collections.Counter((a[i], a[(i + 1) % 3]) for a in t for i in range(3))
    open_edges = sum(1 for (a, b), n in edges.items() if n != 1 or edges[(b, a)] != 1)
    det = lambda a, b, c: a[0]*(b[1]*c[2]-b[2]*c[1]) - a[1]*(b[0]*c[2]-b[2]*c[0]) + a[2]*(b[0]*c[1]-b[1]*c[0])
    objects.append(dict(id=o.get('id'), name=o.get('name'), number=o.get('partnumber'), type=o.get('type'), points=len(v), same=len(v) - len(set(v)),
        triangles=len(t), open=open_edges, volume=sum(det(v[a], v[b], v[c]) for a, b, c in t) / 6,
        low=[min(p[k] for p in v) for k in range(3)], high=[max(p[k] for p in v) for k in range(3)]))
items = [dict(id=i.get('objectid'), transform=[float(x) for x in i.get('transform', '1 0 0 0 1 0 0 0 1 0 0 0').split()]) for i in m.iter(NS + 'item')]
meta = {x.get('name'): x.text for x in m.iter(NS + 'metadata')}
print(json.dumps(dict(unit=m.get('unit'), objects=objects, items=items, meta=meta, names=z.namelist())))
`;

interface Read {
  readonly unit: string;
  readonly objects: readonly {
    readonly id: string;
    readonly name: string;
    readonly number: string;
    readonly type: string;
    readonly same: number;
    readonly triangles: number;
    readonly open: number;
    readonly volume: number;
    readonly low: readonly number[];
    readonly high: readonly number[];
  }[];
  readonly items: readonly { readonly id: string; readonly transform: readonly number[] }[];
  readonly meta: Readonly<Record<string, string>>;
}

const bed = [120, 90, 100] as const;
const jig = { bed, gap: 4, print: PRINT };
const part = (name: string, title: string, w: number, h: number): SolidPart => {
  const solid = union(box([0, 0, 0], [w, 10, 10]), box([0, 0, 0], [10, h, 10]), box([0, 0, 9], [5, 5, 20]));
  return printedPart({ name, kind: 'dummy-tube', title, solid, at: frameAlong([1, 2, 3], [0, 0, 1]), up: WORLD }, bed);
};
const odd = part('odd', 'Rohr <1> & "Bogen" \u0001 ü', 60, 70);
const plain = part('plain', 'Plain', 45, 30);
const wanted = [
  { part: odd, count: 2 },
  { part: plain, count: 3 },
];

describe('build plates as 3MF', () => {
  let folder = '';
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), '3mf-'));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('are read by a reader not ours: unit, names, quantities, places, closed meshes', async (context) => {
    const python = requireTool('ezdxf', context);
    const { plates, tooBig } = printPlates(wanted, jig);
    expect(tooBig).toEqual([]);
    const files = await plateFiles(plates, 'V & W');
    const copies = new Map<string, number>();
    for (const [i, file] of files.entries()) {
      expect([file.path, file.kind]).toEqual([`print/plate-${i + 1}.3mf`, 'print-plate']);
      const path = join(folder, `${i}.3mf`);
      writeFileSync(path, file.bytes);
      const told = spawnSync(python, ['-c', READER, path], { encoding: 'utf8' });
      expect(told.stderr).toBe('');
      const read = JSON.parse(told.stdout) as Read;
      expect(read.unit).toBe('millimeter');
      expect(read.meta.Title).toBe(`V & W: plate-${i + 1}`);
      expect(read.meta.Description).toMatch(/mock-up and tacking only/);
      expect(read.items).toHaveLength(plates[i]!.parts.length);
      for (const o of read.objects) {
        const own = o.number === 'odd' ? odd : plain;
        expect(o.name).toBe(own === odd ? 'odd: Rohr <1> & "Bogen"   ü' : 'plain: Plain');
        expect([o.type, o.open, o.same, o.triangles]).toEqual(['model', 0, 0, triangleCount(own.mesh)]);
        expect(o.volume).toBeCloseTo(meshVolume(own.mesh), 1);
        expect(o.low[2]).toBe(0);
      }
      for (const { id, transform } of read.items) {
        const o = read.objects.find((x) => x.id === id)!;
        copies.set(o.number, (copies.get(o.number) ?? 0) + 1);
        expectOnBed(o.low, o.high, transform);
      }
    }
    expect(Object.fromEntries(copies)).toEqual({ odd: 2, plain: 3 });
  });

  it('are the same bytes each time, and none for no parts', async () => {
    const { plates } = printPlates(wanted, jig);
    const [a, b] = [await plateFiles(plates, 'x'), await plateFiles(plates, 'x')];
    expect(a.map((f) => Buffer.from(f.bytes).toString('base64'))).toEqual(
      b.map((f) => Buffer.from(f.bytes).toString('base64')),
    );
    expect(await plateFiles([], 'x')).toEqual([]);
  });
});

/** By 3MF's rule a transform multiplies a row vector: every corner of a turned L lies on the bed where its box's corners do. */
function expectOnBed(low: readonly number[], high: readonly number[], m: readonly number[]): void {
  // a turn about z: no scale, no mirror, no tilt
  expect(m[0]! * m[4]! - m[1]! * m[3]!).toBeCloseTo(1, 5);
  expect([m[2], m[5], m[6], m[7], m[8], m[11]]).toEqual([0, 0, 0, 0, 1, 0]);
  if (Math.abs(m[0]! * m[1]!) > 1e-9) return;
  for (const x of [low[0]!, high[0]!]) {
    for (const y of [low[1]!, high[1]!]) {
      const [X, Y] = [x * m[0]! + y * m[3]! + m[9]!, x * m[1]! + y * m[4]! + m[10]!];
      expect(X).toBeGreaterThanOrEqual(-1e-4);
      expect(Y).toBeGreaterThanOrEqual(-1e-4);
      expect(X).toBeLessThanOrEqual(bed[0] + 1e-4);
      expect(Y).toBeLessThanOrEqual(bed[1] + 1e-4);
    }
  }
}
