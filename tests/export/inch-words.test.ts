import { readFileSync } from 'node:fs';
import { beforeAll, describe, expect, it } from 'vitest';
import { reportText } from '../../src/cli/report/report.js';
import { outputsOf } from '../../src/outputs.js';
import { readPlan } from '../../src/params/read-plan.js';
import { type BuiltHeader, buildHeader, routeHeader } from '../../src/pipeline.js';
import { TEMPLATE_FOLDER } from '../support/command.js';
import { inInches } from '../support/in-inches.js';
import { wordsOfPdf } from '../support/read-pdf.js';
import { requireTool } from '../support/tools.js';

/** What may say mm in the papers of an inch plan: rulers and tiles on paper, the scale of a picture, the unit of a drawing's own file. */
const ALLOWED = [
  /100 mm across|100 mm up|must (be|measure) 100 mm|Tiles share 10 mm/,
  /THIS LINE IS 100 mm LONG|Finished size .* drawn in mm/,
  /^100 mm$/,
];

/** A length in mm without its inches behind it in brackets. */
const ALONE = /\d ?mm\b(?! \([\d.]+ in\))/;

const faults = (lines: readonly string[]): string[] =>
  lines.filter((line) => ALONE.test(line) && !ALLOWED.some((a) => a.test(line)));

const textOf = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);

describe('the papers of a plan in inches', () => {
  let built: BuiltHeader;
  let files: ReturnType<typeof outputsOf>['files'];
  let summary: ReturnType<typeof outputsOf>['summary'];
  const named = (end: RegExp) => files.filter((f) => end.test(f.path));

  beforeAll(async () => {
    const text = inInches(readFileSync(`${TEMPLATE_FOLDER}inline-four.yaml`, 'utf8'));
    const read = readPlan(text, 'plan.yaml');
    if (!read.ok) throw new Error(read.text);
    const routing = routeHeader(read.plan);
    if (!routing.ok) throw new Error('no route');
    built = await buildHeader(routing.header);
    ({ files, summary } = outputsOf(built));
  });

  it('answer in inches on the terminal', () => {
    const said = reportText(built, { folder: 'out', files, bill: built.bill });
    expect(said).toMatch(/29\.92126 in/);
    expect(faults(said.split('\n'))).toEqual([]);
  });

  it('give every finding, note and name of stock in inches, and all numbers of the summary in mm as ever', () => {
    const words: string[] = [];
    JSON.stringify(summary, (_, v: unknown) => {
      if (typeof v === 'string') words.push(v);
      return v;
    });
    expect(faults(words)).toEqual([]);
    expect(words.filter((w) => / in\b/.test(w)).length).toBeGreaterThan(100);
    expect(summary.units).toBe('in');
    expect(summary.primaries[0]!.length_mm).toBeCloseTo(760, 6);
    expect(summary.findings.map((f) => f.unit)).toContain('mm');
  });

  it('title parts and patterns in inches, in pictures and drawings too', () => {
    const titles = [...built.jigs, ...built.collectorAids].map((p) => p.title);
    const drawn = named(/\.(svg|dxf)$/).flatMap((f) => textOf(f.bytes).match(/>[^<>]+<|^[^<>]+$/gm) ?? []);
    const lines = [...titles, ...drawn.map((line) => line.replace(/^>|<$/g, '').trim())];
    expect(lines.length).toBeGreaterThan(500);
    expect(faults(lines)).toEqual([]);
    expect(lines.some((l) => / in\b/.test(l))).toBe(true);
  });

  it('put inches beside every length of the shop sheets, and stand in inches on prints', (context) => {
    const reader = requireTool('pdftotext', context);
    const prints = named(/(flange|inlet|cone)\.pdf$/);
    expect(prints).toHaveLength(3);
    const lines = prints.flatMap((f) => wordsOfPdf(reader, f.bytes).flatMap((page) => page.split('\n')));
    expect(faults(lines)).toEqual([]);
  });
});
