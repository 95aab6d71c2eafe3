import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { summarySchema } from '../../src/export/summary/summary-schema.js';
import { STARTERS } from '../../src/params/text/starter.js';
import { lengthsFromBendTable } from './bend-table-length.js';
import { evenrun } from './command.js';
import { csvRows } from './csv-rows.js';
import type { Ran } from './run.js';
import { slicedPlate } from './slicing.js';
import { requireTool } from './tools.js';

/** The starters are checked in so many files, tests/e2e/templates-1 and on, that the work is shared out. */
export const PARTS = 4;

/** The starters of one of these files, from 1: every one is in just one. */
const startersOf = (part: number): string[] => STARTERS.map((s) => s.name).filter((_, i) => i % PARTS === part - 1);

/**
 * Built twice: one of every kind, for each build takes its time. An inline four and a turbo six are built a second time, and compared with
 * what is kept, by the test of the examples.
 */
const REPEATED: readonly string[] = ['inline-four-421', 'traced-gasket'];

/** Sliced whole, two of the smallest, for a plate takes the slicer some seconds; `npm run slice` does them all. */
const SLICED: readonly string[] = ['single', 'v-twin'];

/** The whole header in one file: as many bodies as it has parts. */
const HEADER = 'header.stl';

/** Checks the starters of one part, each as a new user builds it. */
export function checkStarters(part: number): void {
  const folder = mkdtempSync(join(tmpdir(), 'evenrun-templates-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  describe.each(startersOf(part))('starter plan %s, as a new user builds it', (template) => {
    const out = join(folder, template);
    let ran: Ran;
    const read = (file: string): string => readFileSync(join(out, file), 'utf8');
    const files = (): string[] => readdirSync(out, { recursive: true }).map(String).sort();
    const stls = (): string[] => files().filter((f) => f.endsWith('.stl'));

    /** Bodies of the header: the stretches of one size of every tube, collectors, flanges, plates that have a place. */
    const bodies = (): number => {
      const stretches = csvRows(readFileSync(join(out, 'cut-list.csv'))).map((r) =>
        [r.cylinder, r.secondary_from, r.od_mm, r.wall_mm].join(),
      );
      const { collectors, plates, files: listed } = summarySchema.parse(JSON.parse(read('summary.json')));
      const flanges = listed.filter((f) => f.kind === 'flange-drawing' && f.path.endsWith('.dxf'));
      return (
        new Set(stretches).size + collectors.length + flanges.length + plates.filter((p) => p.at_mm !== null).length
      );
    };

    beforeAll(() => {
      expect(evenrun(['new', `plan-${template}`, '--template', template], folder).code).toBe(0);
      ran = evenrun(['build', `plan-${template}.yaml`, '--out', template], folder);
    });

    it('exits 0 and says so', () => {
      expect(ran.err).not.toMatch(/error/);
      expect(ran.code).toBe(0);
      expect(ran.out).toContain('all checks hold');
    });

    it('has a spread of at most 0.001 mm by recomputation from its bend table', () => {
      const lengths = lengthsFromBendTable(read('bend-table.csv'));
      const summary = summarySchema.parse(JSON.parse(read('summary.json')));
      expect(lengths.size).toBe(summary.primaries.length);
      const values = [...lengths.values()];
      expect(Math.max(...values) - Math.min(...values)).toBeLessThanOrEqual(0.001);
      for (const p of summary.primaries) {
        expect(Math.abs(lengths.get(p.cylinder)! - p.length_mm)).toBeLessThan(1e-6);
        expect(Math.abs(p.length_mm - p.target_mm)).toBeLessThanOrEqual(0.001);
      }
    });

    it('has a summary that lists just the files that are there', () => {
      const summary = summarySchema.parse(JSON.parse(read('summary.json')));
      expect(summary.passed).toBe(true);
      const listed = ['summary.json', ...summary.files.map((f) => f.path)].sort();
      const there = readdirSync(out, { recursive: true, withFileTypes: true })
        .filter((e) => e.isFile())
        .map((e) => join(e.parentPath, e.name).slice(out.length + 1));
      expect(there.sort()).toEqual(listed);
      expect(listed.some((f) => f.startsWith('jigs/'))).toBe(true);
      expect(listed.some((f) => f.startsWith('collector/'))).toBe(true);
    });

    it('has a cut list whose pieces sum to every length, flange thickness included', () => {
      const [header, ...lines] = read('cut-list.csv').trim().split('\r\n');
      const at = (name: string): number => header!.split(',').indexOf(name);
      const lengths = lengthsFromBendTable(read('bend-table.csv'));
      for (const [cylinder, length] of lengths) {
        const own = lines.map((l) => l.split(',')).filter((c) => Number(c[at('cylinder')]) === cylinder);
        const flange = Number(own[0]![at('from_mm')]);
        const sum = own.reduce((s, c) => s + Number(c[at('length_mm')]), flange);
        expect(Math.abs(sum - length)).toBeLessThan(1e-6);
        expect(flange).toBeGreaterThan(0);
      }
    });

    it('has flange drawings that audit clean, every cut contour closed', (context) => {
      const python = requireTool('ezdxf', context);
      const script = `
import sys, ezdxf
for path in sys.argv[1:]:
    doc = ezdxf.readfile(path)
    audit = doc.audit()
    cut = [e for e in doc.modelspace() if e.dxf.layer.startswith('CUT')]
    open_ones = [e for e in cut if not (e.dxftype() == 'CIRCLE' or (e.dxftype() == 'LWPOLYLINE' and e.closed))]
    print(len(audit.errors), len(audit.fixes), len(cut) > 0, len(open_ones), doc.header['$INSUNITS'])
`;
      const drawings = files().filter((f) => f.endsWith('.dxf'));
      const told = spawnSync(python, ['-c', script, ...drawings], { cwd: out, encoding: 'utf8' });
      expect(told.stderr).toBe('');
      expect(told.stdout.trim().split('\n')).toEqual(drawings.map(() => '0 0 True 0 4'));
    });

    it('has solids that are one closed body each by another reader', (context) => {
      const admesh = requireTool('admesh', context);
      expect(stls()).toContain(HEADER);
      for (const stl of stls()) {
        const told = spawnSync(admesh, [stl], { cwd: out, encoding: 'utf8' }).stdout;
        expect(told, stl).toMatch(/Total disconnected facets\s*:\s*0\s+0/);
        expect(Number(/Number of parts\s*:\s*(\d+)/.exec(told)?.[1]), stl).toBe(stl === HEADER ? bodies() : 1);
        expect(Number(/Volume\s*:\s*([-\d.]+)/.exec(told)?.[1]), stl).toBeGreaterThan(0);
      }
    });

    it('has solids that a slicer takes as they are and that fit the bed', (context) => {
      const slicer = requireTool('prusa-slicer', context);
      const told = spawnSync(slicer, ['--info', ...stls()], { cwd: out, encoding: 'utf8', maxBuffer: 1 << 26 }).stdout;
      const infos = told.split(/^(?=\[.*\.stl\]$)/m).filter((info) => /^\[.*\.stl\]\n/.test(info));
      // it tells the names without their folders, in the order given
      expect(infos.map((i) => /^\[(.*)\]/.exec(i)![1])).toEqual(stls().map((f) => basename(f)));
      for (const [i, stl] of stls().entries()) {
        const told = infos[i]!;
        expect(told, stl).toMatch(/manifold = yes/);
        expect(Number(/number_of_parts =\s*(\d+)/.exec(told)?.[1]), stl).toBe(stl === HEADER ? bodies() : 1);
        if (stl.startsWith('jigs')) {
          for (const axis of ['x', 'y', 'z']) {
            expect(
              Number(new RegExp(`size_${axis} = ([\\d.]+)`).exec(told)?.[1]),
              `${stl} ${axis}`,
            ).toBeLessThanOrEqual(210);
          }
        }
      }
    });

    it.runIf(SLICED.includes(template))(
      'has build plates that a slicer cuts without repair, nothing outside the bed',
      (context) => {
        const slicer = requireTool('prusa-slicer', context);
        const [header, ...rows] = read('print/plates.csv').trim().split('\r\n');
        const at = (name: string): number => header!.split(',').indexOf(name);
        const plates = files().filter((f) => f.endsWith('.3mf'));
        expect(plates.length).toBeGreaterThan(1);
        for (const plate of plates) {
          const name = plate.replace(/^print\/|\.3mf$/g, '');
          const whole = rows
            .map((r) => r.split(','))
            .find((r) => r[at('plate')] === name && r[at('part')] === 'whole plate');
          const copies = Number(whole?.[at('copies')]);
          expect(copies, plate).toBeGreaterThan(0);
          expect(slicedPlate(slicer, join(out, plate)), plate).toEqual({ parts: copies, faults: [] });
        }
      },
      240_000,
    );

    it('has a mock-up that goes together: nothing overlaps, every joint closes, tubes and collectors are where the design has them', () => {
      const { findings } = summarySchema.parse(JSON.parse(read('summary.json')));
      for (const id of ['jig.overlap', 'jig.mate', 'jig.place', 'jig.centreline']) {
        const own = findings.filter((f) => f.id === id);
        expect(own.length, id).toBeGreaterThan(0);
        expect(
          own.filter((f) => f.level !== 'ok'),
          id,
        ).toEqual([]);
      }
    });

    it('has every piece in stock, proven to be the fewest', () => {
      const { stock } = summarySchema.parse(JSON.parse(read('summary.json')));
      expect(stock).toMatchObject({ optimal: true, unmade: [] });
      expect(stock!.value).toBe(stock!.bound);
      expect(ran.out).toMatch(/Stock: \d+ pieces? .* proven fewest/);
    });

    it.runIf(REPEATED.includes(template))('gives the same bytes again', () => {
      expect(evenrun(['build', `plan-${template}.yaml`, '--out', `${template}-again`], folder).code).toBe(0);
      for (const f of summarySchema.parse(JSON.parse(read('summary.json'))).files) {
        const again = readFileSync(join(folder, `${template}-again`, f.path));
        expect(again.equals(readFileSync(join(out, f.path))), f.path).toBe(true);
      }
    });
  });
}
