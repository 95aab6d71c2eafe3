import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** What ezdxf, a reader not ours, finds in a drawing: areas and lengths by its own reading of bulges. */
export interface DxfReading {
  readonly errors: readonly string[];
  readonly fixes: readonly string[];
  readonly header: Readonly<Record<string, number | readonly number[] | string>>;
  /** Highest handle of any entity, and the seed of the next. */
  readonly handles: { readonly highest: number; readonly seed: number };
  readonly layers: readonly string[];
  readonly entities: readonly DxfReadEntity[];
}

export interface DxfReadEntity {
  readonly type: string;
  readonly layer: string;
  readonly closed: boolean | null;
  /** Enclosed area, mm2, of circles and closed polylines: shoelace plus the arcs' segments, worked out in Python. */
  readonly area: number | null;
  readonly bulges: readonly number[];
  /** True when the last vertex repeats the first. */
  readonly repeated: boolean;
  readonly text: string | null;
  /** Length of a line, mm; diameter of a circle, mm. */
  readonly length: number | null;
  readonly diameter: number | null;
  /** Lowest and highest x and y of its flattened path, mm. */
  readonly extent: readonly number[] | null;
}

const READER = `
import sys, json, math, ezdxf
from ezdxf import path
doc = ezdxf.readfile(sys.argv[1])
seed = int(str(doc.header['$HANDSEED']), 16)
raw = open(sys.argv[1]).read().split('\\n')
handles = [int(raw[i + 1], 16) for i in range(0, len(raw) - 1, 2) if raw[i].strip() == '5' and raw[i - 1] != '$HANDSEED']
raw_seed = next(int(raw[i + 3], 16) for i in range(0, len(raw) - 3, 2) if raw[i + 1] == '$HANDSEED')
audit = doc.audit()
out = []
for e in doc.modelspace():
    t = e.dxftype()
    r = dict(type=t, layer=e.dxf.layer, closed=None, area=None, bulges=[], repeated=False, text=None, length=None, diameter=None, extent=None)
    if t == 'LWPOLYLINE':
        p = e.get_points('xyb')
        r['closed'] = bool(e.closed)
        r['bulges'] = [b for _, _, b in p]
        r['repeated'] = math.dist(p[0][:2], p[-1][:2]) < 1e-6
        a = 0
        for (x, y, b), (u, v, _) in zip(p, p[1:] + p[:1]):
            a += (x * v - u * y) / 2
            if b:
                s = 4 * math.atan(b)
                radius = math.dist((x, y), (u, v)) / 2 / abs(math.sin(s / 2))
                a += radius ** 2 * (s - math.sin(s)) / 2
        r['area'] = a
    if t == 'CIRCLE':
        r['closed'] = True
        r['area'] = math.pi * e.dxf.radius ** 2
        r['diameter'] = 2 * e.dxf.radius
    if t == 'TEXT': r['text'] = e.dxf.text
    if t == 'LINE': r['length'] = math.dist(e.dxf.start, e.dxf.end)
    if t in ('LWPOLYLINE', 'CIRCLE', 'LINE', 'ARC'):
        pts = list(path.make_path(e).flattening(0.001))
        r['extent'] = [min(v.x for v in pts), min(v.y for v in pts), max(v.x for v in pts), max(v.y for v in pts)]
    out.append(r)
keys = ['$ACADVER', '$INSUNITS', '$MEASUREMENT', '$EXTMIN', '$EXTMAX']
head = {k: (list(doc.header[k]) if k.startswith('$EXT') else doc.header[k]) for k in keys}
print(json.dumps(dict(errors=[x.message for x in audit.errors], fixes=[x.message for x in audit.fixes], header=head,
    handles=dict(highest=max(handles), seed=raw_seed), layers=[l.dxf.name for l in doc.layers], entities=out)))
`;

/** A drawing read back by ezdxf under the given Python. Throws Error with what the reader says when it cannot. */
export function readDxf(python: string, bytes: Uint8Array): DxfReading {
  const folder = mkdtempSync(join(tmpdir(), 'evenrun-dxf-'));
  try {
    const file = join(folder, 'drawing.dxf');
    writeFileSync(file, bytes);
    const run = spawnSync(python, ['-c', READER, file], { encoding: 'utf8', maxBuffer: 1 << 26 });
    if (run.status !== 0) throw new Error(`ezdxf could not read the drawing: ${run.stderr}`);
    return JSON.parse(run.stdout) as DxfReading;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
