import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { ControlPolygon } from '../../src/geometry/path/control-polygon.js';
import { readPlan } from '../../src/params/read-plan.js';
import { routeHeader } from '../../src/pipeline.js';
import { tubesFromBendTable } from '../support/bend-table-length.js';
import { evenrun, TEMPLATE_FOLDER } from '../support/command.js';
import { csvRows } from '../support/csv-rows.js';
import { tubeShape } from '../support/dense-tube.js';
import { inInches } from '../support/in-inches.js';
import { wordsOfPdf } from '../support/read-pdf.js';
import type { Ran } from '../support/run.js';
import { lengthByVolume, placeAt, type StlBody, stlBodies } from '../support/stl-tube-length.js';
import { type Told, toldByBook, toldBySheets, toldByTables } from '../support/told-lengths.js';
import { requireTool } from '../support/tools.js';

const starter = (name: string): string => readFileSync(join(TEMPLATE_FOLDER, `${name}.yaml`), 'utf8');

/** The text with every part replaced; each must be there. */
function withParts(text: string, parts: readonly (readonly [string, string])[]): string {
  return parts.reduce((told, [part, by]) => {
    if (!told.includes(part)) throw new Error(`no ${part}`);
    return told.replace(part, by);
  }, text);
}

/** How much longer than the target the second tube is taken by hand, mm: no two outputs can then agree by printing the target. */
const LONGER = 0.4;

/** An inline four of an odd length, welds with a gap, cylinder 2 by hand and longer than the others. */
function unequalFour(): string {
  const text = `${withParts(starter('inline-four'), [['length: 760 ', 'length: 757.318 ']])}\nweld: { gap: 1.2, shrinkage: 0.7 }\n`;
  const read = readPlan(text, 'four', () => new Uint8Array());
  if (!read.ok) throw new Error(read.text);
  const routed = routeHeader(read.plan);
  if (!routed.ok) throw new Error('no route');
  const { polygon, inlet } = routed.header.primaries.find((p) => p.cylinder === 2)!;
  const { points, clr } = longerBy(polygon, LONGER);
  const route = `  routes: [{ by: xyz, cylinder: 2, inlet: ${inlet}, points: ${JSON.stringify(points)}, clr: ${JSON.stringify(clr)} }]\n`;
  return withParts(text, [['  spread: 1 ', `${route}  spread: 1 `]]);
}

/** The route with its first bend so much further out on the port's axis that it is longer by that. */
function longerBy({ points, clr }: ControlPolygon, by: number): ControlPolygon {
  const [start, first] = [points[0]!, points[1]!];
  const leg = Math.hypot(first[0] - start[0], first[1] - start[1], first[2] - start[2]);
  const moved = (out: number): ControlPolygon => {
    const k = out / leg;
    const at = [0, 1, 2].map((i) => first[i]! + k * (first[i]! - start[i]!)) as unknown as typeof first;
    return { points: [start, at, ...points.slice(2)], clr };
  };
  const aim = tubeShape({ points, clr }).length + by;
  const over = (out: number): number => tubeShape(moved(out)).length - aim;
  // further out or nearer, whichever makes it longer: the first step of 0.25 mm on which the aim lies
  const near = Array.from({ length: 100 }, (_, i) => (i % 2 === 0 ? 1 : -1) * 0.25 * (1 + Math.floor(i / 2)));
  let high = near.find((out) => over(out) > 0)!;
  let low = high - Math.sign(high) * 0.25;
  for (let k = 0; k < 60; k++) {
    const middle = (low + high) / 2;
    if (over(middle) < 0) low = middle;
    else high = middle;
  }
  return moved(low);
}

const PLANS = [
  ['an inline four with unequal tubes and weld gaps', 'unequal', unequalFour],
  [
    'a 4-2-1',
    'pairs',
    () =>
      withParts(starter('inline-four-421'), [
        ['length: 470 ', 'length: 471.93 '],
        ['length: 380\n', 'length: 381.27\n'],
      ]),
  ],
  [
    'a stepped header in inches',
    'inches',
    () => inInches(withParts(starter('inline-four-stepped'), [['length: 780\n', 'length: 781.6438\n']])),
  ],
] as const;

const folder = mkdtempSync(join(tmpdir(), 'evenrun-agree-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe.each(PLANS)('the outputs of %s', (_, name, plan) => {
  const out = join(folder, name);
  const read = (path: string): Uint8Array => readFileSync(join(out, path));
  const words = (path: string): string => readFileSync(join(out, path), 'utf8');
  let ran: Ran;
  /** Every tube by its name, from the points and radii of the bend tables alone; what all outputs are held against. */
  let walked: Map<string, { polygon: ControlPolygon; length: number }>;

  beforeAll(() => {
    writeFileSync(join(folder, `${name}.yaml`), plan());
    ran = evenrun(['build', `${name}.yaml`, '--out', name], folder);
    expect(ran.err).not.toMatch(/error/);
    const tubes = [...tubesFromBendTable(words('bend-table.csv'))].map(([c, p]) => [`cylinder ${c}`, p] as const);
    const more = name === 'pairs' ? [...secondaries(words('secondary-bend-table.csv'))] : [];
    walked = new Map(
      [...tubes, ...more].map(([tube, polygon]) => [tube, { polygon, length: tubeShape(polygon).length }]),
    );
  });

  /** Full precision: the same to the last digits; printed: the same digits. At least `least` tubes must be told. */
  function expectAgreed({ by, unit, lengths }: Told, least: number): void {
    expect(lengths.size, by).toBeGreaterThanOrEqual(least);
    for (const [tube, text] of lengths) {
      const length = walked.get(tube)!.length / (unit === 'in' ? 25.4 : 1);
      const digits = text.split('.')[1]?.length ?? 0;
      if (unit === 'mm' && (digits === 0 || digits > 3))
        expect(Math.abs(Number(text) - length), `${by}, ${tube}`).toBeLessThan(1e-9);
      else expect(text, `${by}, ${tube}`).toBe(length.toFixed(digits));
    }
  }

  it('name no two lengths of a tube: tables and summary', () => {
    expect(walked.size).toBe(name === 'pairs' ? 6 : 4);
    const summary = JSON.parse(words('summary.json'));
    const inSummary = new Map<string, string>([
      ...summary.primaries.map((p: { cylinder: number; length_mm: number }) => [
        `cylinder ${p.cylinder}`,
        String(p.length_mm),
      ]),
      ...summary.secondaries.map((s: { from: string; length_mm: number }) => [
        `secondary from ${s.from}`,
        String(s.length_mm),
      ]),
    ]);
    expectAgreed({ by: 'summary.json', unit: 'mm', lengths: inSummary }, walked.size);
    const own = [...walked].filter(([tube]) => tube.startsWith('cylinder')).map(([, t]) => t.length);
    expect(Math.abs(summary.spread_mm - (Math.max(...own) - Math.min(...own)))).toBeLessThan(1e-9);
    if (name === 'unequal') expect(summary.spread_mm).toBeCloseTo(LONGER, 9);
    for (const told of toldByTables(read))
      expectAgreed(told, /lengths|developed|stations/.test(told.by) ? 4 : walked.size);
  });

  it('name no two lengths of a tube: paper, page and terminal', (context) => {
    const summary = JSON.parse(words('summary.json'));
    const told = [
      ...toldBySheets(wordsOfPdf(requireTool('pdftotext', context), read('sheets.pdf')).join('')),
      ...toldByBook(words('book.html')),
    ];
    for (const t of told) {
      // inches stand only in an inch plan, where the summary sheet has two lines a tube and is not read
      if (t.unit === 'in' || t.by === 'sheets.pdf, summary') {
        expectAgreed(t, (t.unit === 'in') === (name === 'inches') ? walked.size : 0);
      } else expectAgreed(t, walked.size);
    }
    // people are answered in the plan's unit, inches with a digit or two more
    const { units } = summary as { units: 'mm' | 'in' };
    const inPlan = (mm: number, digits: number): string =>
      units === 'in' ? `${(mm / 25.4).toFixed(digits + 2)} in` : `${mm.toFixed(digits)} mm`;
    const table = ran.out.matchAll(/^ +(\d+) +(?:\w+ )?\d+ +([\d.]+) (?:mm|in) +([-+][\d.]+ (?:mm|in))/gm);
    const rows = [...table];
    expectAgreed(
      { by: 'the terminal', unit: units, lengths: new Map(rows.map((r) => [`cylinder ${r[1]}`, r[2]!])) },
      4,
    );
    const target = summary.primaries[0].target_mm as number;
    for (const r of rows) {
      const off = walked.get(`cylinder ${r[1]}`)!.length - target;
      expect(r[3]).toBe(`${off < -5e-4 ? '-' : '+'}${inPlan(Math.abs(off), 3)}`);
    }
    const verdict = `4 primaries of ${inPlan(target, 1)}, spread ${inPlan(summary.spread_mm, 3)}`;
    for (const text of [ran.out, words('overview.svg'), words('book.html')]) expect(text).toContain(verdict);
    const checks = (summary.findings as { id: string; place: string; message: string }[]).filter(
      (f) => f.id === 'equal-length.target',
    );
    expect(checks.length).toBeGreaterThanOrEqual(4);
    const inChecks = checks.map((f): [string, string] => [f.place, /^([\d.]+) (?:mm|in) long/.exec(f.message)![1]!]);
    expectAgreed({ by: 'checks', unit: units, lengths: new Map(inChecks) }, 4);
  });

  it('hold bodies whose volume over their section is that length', () => {
    const bodies = stlBodies(read('header.stl'));
    const totals = csvRows(read('tube-totals.csv'));
    for (const [tube, { polygon, length }] of walked) {
      const total = totals.find(
        (r) => tube === (r.cylinder ? `cylinder ${r.cylinder}` : `secondary from ${r.secondary_from}`),
      )!;
      const start = Number(total.start_mm);
      for (const skin of ['outside', 'bore'] as const) {
        const byVolume = start + stretchesOf(tube).reduce((sum, s) => sum + byVolumeOf(bodies, polygon, s, skin), 0);
        // a corner's coordinates of 32 bits are off by 1.5e-5 mm at most below 512 mm: what the volume makes of that is less than 1e-4
        expect(Math.abs(byVolume - length), `${tube}, ${skin}`).toBeLessThan(1e-4);
        expect(byVolume.toFixed(3), `${tube}, ${skin}`).toBe(length.toFixed(3));
      }
    }
  });

  /** The stretches of one size of a tube, by its pieces. */
  function stretchesOf(tube: string): Stretch[] {
    const own = csvRows(read('cut-list.csv')).filter(
      (r) => tube === (r.cylinder ? `cylinder ${r.cylinder}` : `secondary from ${r.secondary_from}`),
    );
    const all: Stretch[] = [];
    for (const r of own) {
      const [od, wall, to] = [Number(r.od_mm), Number(r.wall_mm), Number(r.to_mm)];
      const last = all.at(-1);
      if (last?.od === od && last.wall === wall) last.to = to;
      else all.push({ from: Number(r.from_mm), to, od, wall });
    }
    return all;
  }
});

/** A stretch of one size between two running lengths, mm. */
interface Stretch {
  readonly from: number;
  to: number;
  readonly od: number;
  readonly wall: number;
}

function byVolumeOf(
  bodies: readonly StlBody[],
  polygon: ControlPolygon,
  { from, to, od, wall }: Stretch,
  skin: 'outside' | 'bore',
): number {
  const radius = skin === 'outside' ? od / 2 : od / 2 - wall;
  const [start, end] = [placeAt(polygon, from), placeAt(polygon, to)];
  const found = bodies.map((b) => lengthByVolume(b, radius, start, end)).filter((l) => l !== null);
  expect(found.length, `${skin} from ${from} to ${to} mm`).toBe(1);
  return found[0]!;
}

/** The tubes of the table of secondaries. */
function secondaries(csv: string): Map<string, ControlPolygon> {
  const [header, ...rows] = csv.split('\r\n');
  const names = [...new Set(rows.filter(Boolean).map((r) => r.split(',')[0]!))];
  const numbered = rows.map((r) => r.replace(/^[^,]+/, (from) => String(names.indexOf(from))));
  const tubes = tubesFromBendTable([header!.replace(/^from/, 'cylinder'), ...numbered].join('\r\n'));
  return new Map([...tubes].map(([i, polygon]) => [`secondary from ${names[i]}`, polygon]));
}
