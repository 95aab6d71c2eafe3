import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { asBuiltSummarySchema } from '../../src/export/summary/as-built-schema.js';
import { evenrun } from '../support/command.js';
import type { Ran } from '../support/run.js';
import { tightBayText } from '../support/tight-bay.js';

const folder = mkdtempSync(join(tmpdir(), 'evenrun-measure-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const measure = (...args: string[]): Ran => evenrun(['measure', 'four.yaml', ...args], folder);
const put = (name: string, text: string): void => writeFileSync(join(folder, name), text);

describe('evenrun measure', () => {
  let blank: Ran;
  beforeAll(() => {
    expect(evenrun(['new', 'four', '--template', 'inline-four-421'], folder).code).toBe(0);
    blank = measure('--blank');
    put('blank.yaml', blank.out);
  });

  it('prints a file to fill in that is sound and within tolerance as it is', () => {
    expect(blank.code).toBe(0);
    expect(blank.err).toBe('');
    const ran = measure('--as-built', 'blank.yaml');
    expect(ran.code).toBe(0);
    expect(ran.out).toMatch(/True spread of the primaries 0\.00 mm .*: within tolerance\./);
    expect(ran.out).toMatch(/True spread of the secondaries 0\.00 mm .*: within tolerance\./);
  });

  it('takes any of the other kinds in it once its # is taken away', () => {
    const plan = evenrun(['check', 'four.yaml', '--json'], folder);
    const lengths = (JSON.parse(plan.out) as { primaries: { length_mm: number }[] }).primaries.map((p) => p.length_mm);
    for (const kind of ['pieces:', 'string:', 'water:', 'points:', 'tangent']) {
      const text = blank.out
        .split('\n')
        .map((line, i, lines) => {
          if (/^ {4}length:/.test(line)) return '';
          const field = /^ {4}# +(\S+)/.exec(line)?.[1] ?? '';
          const byNext = /by: (\w+)/.exec(lines[i + 1] ?? '')?.[1];
          const wanted =
            kind === 'pieces:'
              ? field === 'pieces:' || field === '-'
              : kind === 'points:'
                ? (field === 'points:' && byNext === 'intersection') || line.endsWith('by: intersection')
                : kind === 'tangent'
                  ? (field === 'points:' && byNext === 'tangent') || line.endsWith('by: tangent')
                  : field === kind;
          return wanted ? line.replace('    # ', '    ') : line;
        })
        .join('\n');
      put(`${kind.replace(':', '')}.yaml`, text);
      const ran = measure('--as-built', `${kind.replace(':', '')}.yaml`, '--json');
      const found = asBuiltSummarySchema.parse(JSON.parse(ran.out));
      for (const [i, t] of found.groups[0]!.tubes.entries()) {
        // rounding of the file's own decimals; a tenth of a millilitre is under 0.1 mm
        expect(Math.abs(t.length_mm - lengths[i]!), `${kind} ${t.name}`).toBeLessThan(0.1);
      }
    }
  });

  it('tells what to cut, exits 1 and writes nothing', () => {
    const before = readdirSync(folder).sort();
    put(
      'long.yaml',
      blank.out.replace(/length: ([\d.]+)/, (_, l) => `length: ${Number(l) + 3}`),
    );
    const ran = measure('--as-built', 'long.yaml');
    expect(ran.code).toBe(1);
    expect(ran.out).toMatch(/True spread of the primaries 3\.00 mm .*: out of tolerance\./);
    expect(ran.out).toMatch(/- cylinder 1: \d\.\d\d mm shorter: open J1\.\d.* and cut \d\.\d\d mm off straight \d/);
    expect(ran.out).toMatch(/Caution: Cutting and welding/);
    const json = measure('--as-built', 'long.yaml', '--json');
    expect(json.code).toBe(1);
    const found = asBuiltSummarySchema.parse(JSON.parse(json.out));
    expect(found.verdict).toBe('outside');
    expect(found.groups[0]!.mends.map((m) => m.tube)).toEqual(['1']);
    expect(readdirSync(folder).sort()).toEqual([...before, 'long.yaml'].sort());
  });

  it('cannot tell with a tube left out: exit 1', () => {
    put('one.yaml', 'evenrun_measured: 1\nunits: in\ntubes:\n  - { cylinder: 2, length: 30 }\n');
    const ran = measure('--as-built', 'one.yaml');
    expect(ran.code).toBe(1);
    expect(ran.out).toMatch(/cannot tell; cylinder 1, cylinder 3 and cylinder 4 not measured/);
    expect(ran.out).toMatch(/The secondaries are not measured\./);
    expect(ran.out).toMatch(/cylinder 2\s+length\s+762\.00 mm/);
  });

  it('names line and field of a bad file, exit 2', () => {
    put('bad.yaml', 'evenrun_measured: 1\nunits: mm\ntubes:\n  - { cylinder: 2, length: far }\n');
    const ran = measure('--as-built', 'bad.yaml');
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(/bad\.yaml:4:28 tubes\.0\.length: expected a length/);
    put('other.yaml', 'evenrun_measured: 1\nunits: mm\ntubes:\n  - { cylinder: 7, length: 700 }\n');
    const json = measure('--as-built', 'other.yaml', '--json');
    expect(json.code).toBe(2);
    expect(JSON.parse(json.out).error.problems[0]).toMatchObject({ line: 4, path: 'tubes.0.cylinder' });
    expect(measure('--as-built', 'nowhere.yaml').err).toMatch(/cannot read nowhere\.yaml: no such file/);
  });

  it.each([[[]], [['--blank', '--as-built', 'blank.yaml']], [['--blank', '--json']]])(
    '%j is a wrong call: exit 2',
    (args) => {
      const ran = measure(...args);
      expect(ran.code).toBe(2);
    },
  );

  it('of a plan without routes exits 3', () => {
    put('short.yaml', tightBayText({ length: 250 }));
    put('short-tubes.yaml', 'evenrun_measured: 1\nunits: mm\ntubes:\n  - { cylinder: 1, length: 250 }\n');
    const ran = evenrun(['measure', 'short.yaml', '--as-built', 'short-tubes.yaml'], folder);
    expect(ran.code).toBe(3);
    expect(ran.out).toBe('');
  });
});
