import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** What ezdxf makes of one drawing: contours put together from whatever they are written as, measured in the drawing's unit. */
export interface DxfMeasure {
  readonly errors: readonly string[];
  readonly fixes: readonly string[];
  readonly version: string;
  readonly insunits: number;
  /** By layer: areas of closed contours in the order of the file. */
  readonly areas: Readonly<Record<string, readonly number[]>>;
  /** By layer: open lines. */
  readonly open: Readonly<Record<string, number>>;
  /** By layer: entity types that stand on it. */
  readonly types: Readonly<Record<string, readonly string[]>>;
  /** Largest distance between the end of one loose curve and the start of the next of its contour. */
  readonly jump: number;
  /** Ends of a line that meet the next line but are not the same number. */
  readonly unequal: number;
  /** Largest angle of an arc within a polyline, rad. */
  readonly most_arc: number;
}

const MEASURE = `
import sys, json, math, ezdxf
from collections import defaultdict
def segment(a, b, bulge):
    s = 4 * math.atan(bulge)
    r = math.dist(a, b) / 2 / abs(math.sin(s / 2))
    return r * r * (s - math.sin(s)) / 2
def loops(curves):
    # curves in the order of the file: ('L', from, to) or ('A', centre, r, a0, a1); arcs may be run backwards
    def ends(c):
        if c[0] == 'L': return [(c[1], c[2])]
        p = [(c[1][0] + c[2] * math.cos(a), c[1][1] + c[2] * math.sin(a)) for a in c[3:5]]
        return [(p[0], p[1]), (p[1], p[0])]
    out, i, jump, unequal = [], 0, 0.0, 0
    while i < len(curves):
        done = None
        for start, at in ends(curves[i]):
            worst, area, uneven, first, k = 0.0, 0.0, 0, start, i
            pos = start
            while k < len(curves):
                a, b = min(ends(curves[k]), key=lambda e: math.dist(e[0], pos))
                d = math.dist(a, pos)
                if d > 1e-3: break
                if k > i and curves[k][0] == 'L' and curves[k - 1][0] == 'L' and a != pos: uneven += 1
                worst = max(worst, d)
                area += (a[0] * b[1] - b[0] * a[1]) / 2
                if curves[k][0] == 'A':
                    c = curves[k]
                    s = (c[4] - c[3]) % (2 * math.pi)
                    area += (1 if math.dist(a, ends(c)[0][0]) < 1e-9 * (1 + c[2]) or math.dist(a, ends(c)[0][0]) < math.dist(a, ends(c)[0][1]) else -1) * c[2] ** 2 * (s - math.sin(s)) / 2
                pos = b
                k += 1
                if k - i > 1 and math.dist(pos, first) < 1e-3:
                    done = (k, area, max(worst, math.dist(pos, first)), uneven)
                    break
            if done: break
        if not done: return None
        i = done[0]
        out.append(abs(done[1])); jump = max(jump, done[2]); unequal += done[3]
    return out, jump, unequal
def measure(path):
    doc = ezdxf.readfile(path)
    audit = doc.audit()
    areas, opened, types, loose = defaultdict(list), defaultdict(int), defaultdict(set), defaultdict(list)
    most = 0.0
    for e in doc.modelspace():
        t, layer = e.dxftype(), e.dxf.layer
        types[layer].add(t)
        if t in ('LWPOLYLINE', 'POLYLINE'):
            p = list(e.get_points('xyb')) if t == 'LWPOLYLINE' else [(v.dxf.location.x, v.dxf.location.y, v.dxf.bulge) for v in e.vertices]
            closed = e.closed if t == 'LWPOLYLINE' else e.is_closed
            if not closed: opened[layer] += 1; continue
            assert math.dist(p[0][:2], p[-1][:2]) > 1e-6, 'first vertex repeated'
            a = 0
            for (x, y, b), (u, v, _) in zip(p, p[1:] + p[:1]):
                a += (x * v - u * y) / 2
                if b: a += segment((x, y), (u, v), b); most = max(most, abs(4 * math.atan(b)))
            areas[layer].append(abs(a))
        elif t == 'CIRCLE': areas[layer].append(math.pi * e.dxf.radius ** 2)
        elif layer.startswith('CUT') and t == 'LINE': loose[layer].append(('L', tuple(e.dxf.start)[:2], tuple(e.dxf.end)[:2]))
        elif layer.startswith('CUT') and t == 'ARC': loose[layer].append(('A', tuple(e.dxf.center)[:2], e.dxf.radius, math.radians(e.dxf.start_angle), math.radians(e.dxf.end_angle)))
        elif t in ('LINE', 'ARC'): opened[layer] += 1
    jump, unequal = 0.0, 0
    for layer, curves in loose.items():
        found = loops(curves)
        if found is None: opened[layer] += 1; continue
        areas[layer] += found[0]; jump = max(jump, found[1]); unequal += found[2]
    return dict(errors=[x.message for x in audit.errors], fixes=[x.message for x in audit.fixes], version=doc.dxfversion,
        insunits=doc.header.get('$INSUNITS', 0), areas=areas, open=opened, types={k: sorted(v) for k, v in types.items()}, jump=jump, unequal=unequal, most_arc=most)
print(json.dumps([measure(p) for p in sys.argv[1:]]))
`;

/** Drawings read back by ezdxf under the given Python, all in one call. Throws Error with what the reader says when it cannot. */
export function measureDxfs(python: string, drawings: readonly Uint8Array[]): DxfMeasure[] {
  const folder = mkdtempSync(join(tmpdir(), 'evenrun-dxf-'));
  try {
    const files = drawings.map((bytes, i) => {
      const file = join(folder, `${i}.dxf`);
      writeFileSync(file, bytes);
      return file;
    });
    const run = spawnSync(python, ['-c', MEASURE, ...files], { encoding: 'utf8', maxBuffer: 1 << 28 });
    if (run.status !== 0) throw new Error(`ezdxf could not read the drawings: ${run.stderr}`);
    return JSON.parse(run.stdout) as DxfMeasure[];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
