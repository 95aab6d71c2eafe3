import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { evenrun, TEMPLATE_FOLDER } from '../support/command.js';

const folder = mkdtempSync(join(tmpdir(), 'evenrun-many-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const SINGLE = readFileSync(join(TEMPLATE_FOLDER, 'single.yaml'), 'utf8');
const summaryIn = (name: string): { passed: boolean; name: string } =>
  JSON.parse(readFileSync(join(folder, 'built', name, 'summary.json'), 'utf8'));

beforeAll(() => {
  writeFileSync(join(folder, 'a.yaml'), SINGLE);
  writeFileSync(join(folder, 'b.yaml'), SINGLE.replace(/^name: .*/m, 'name: the other'));
  writeFileSync(join(folder, 'bad.yaml'), SINGLE.replace(/^ {2}length: .*/m, '  length: -3'));
});

describe('several plans', () => {
  it('are each built into a folder of their name; one that is refused stops no other', () => {
    const ran = evenrun(['build', 'bad.yaml', 'a.yaml', 'b.yaml', '--out', 'built', '--jobs', '3'], folder);
    expect(ran.code).toBe(2);
    expect(ran.out).toMatch(/3 plans: 2 all checks hold, 1 plan refused\./);
    expect(ran.err).toMatch(/bad\.yaml:\d+:\d+ runners\.length/);
    expect(summaryIn('b')).toMatchObject({ passed: true, name: 'the other' });
  });

  it('give the same bytes one at a time as side by side', () => {
    const built = (name: string): Record<string, string> => {
      const files = readdirSync(join(folder, name), { recursive: true, withFileTypes: true }).filter((e) => e.isFile());
      return Object.fromEntries(
        files.map((e) => {
          const path = join(e.parentPath, e.name);
          const sum = createHash('sha256').update(readFileSync(path)).digest('hex');
          return [path.slice(join(folder, name).length + 1), sum];
        }),
      );
    };
    expect(evenrun(['build', 'a.yaml', 'b.yaml', '--out', 'one', '--jobs', '1'], folder).code).toBe(0);
    const one = built('one');
    expect(Object.keys(one).length).toBeGreaterThan(60);
    // the folder 'built' was made three at a time
    expect(one).toEqual(built('built'));
  });

  it('with --resume what stands is kept, and what changed is built', () => {
    writeFileSync(join(folder, 'b.yaml'), SINGLE.replace(/^name: .*/m, 'name: another'));
    const ran = evenrun(['build', 'a.yaml', 'b.yaml', '--out', 'built', '--resume', '--json'], folder);
    expect(ran.code).toBe(0);
    const told = JSON.parse(ran.out) as { plans: { plan: string; kept: boolean }[] };
    expect(told.plans.map((p) => [p.plan, p.kept])).toEqual([
      ['a.yaml', true],
      ['b.yaml', false],
    ]);
    expect(summaryIn('b').name).toBe('another');
  });

  it.each([
    [['a.yaml', './a.yaml', '--out', 'x'], /two plans would be built into x\/a/],
    [['a.yaml', 'b.yaml', '--out', 'x', '--jobs', '0'], /--jobs is a whole number/],
    [['a.yaml', 'b.yaml', '--out', 'x', '--alternatives', '3'], /--alternatives goes with one plan/],
  ])('%j is refused', (args, words) => {
    const ran = evenrun(['build', ...args], folder);
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(words);
  });
});

describe('a sweep', () => {
  const vary = ['--vary', 'runners.length=690:720:10', '--vary', 'tube.od=42.4,9999'];
  const parts = (n: number): string[] =>
    Array.from({ length: n }, (_, k) => {
      const ran = evenrun(['sweep', 'a.yaml', ...vary, '--shard', `${k + 1}/${n}`], folder);
      expect(ran.code).toBe(k % 2 === 0 ? 0 : 1);
      writeFileSync(join(folder, `part-${n}-${k}.jsonl`), ran.out);
      return `part-${n}-${k}.jsonl`;
    });

  it('gives a line for each design, and its parts merge to the same bytes', () => {
    const whole = evenrun(['sweep', '--merge', ...parts(1)], folder);
    expect(whole.code).toBe(0);
    const [head, ...designs] = whole.out
      .trim()
      .split('\n')
      .map((l) => JSON.parse(l));
    expect(head).toMatchObject({ schema: 'evenrun-sweep-1', designs: 8, shard: [1, 1] });
    expect(designs.map((d) => d.outcome)).toEqual(
      Array.from({ length: 8 }, (_, i) => (i % 2 === 0 ? 'passed' : 'refused')),
    );
    for (const d of designs.filter((d) => d.outcome === 'passed')) {
      expect(d.length_mm).toBe(d.values['runners.length']);
    }
    expect(evenrun(['sweep', '--merge', ...parts(2).reverse()], folder).out).toBe(whole.out);
  });

  it.each([
    [['sweep', 'a.yaml'], /at least one field/],
    [['sweep', 'a.yaml', '--vary', 'runners.lenght=1:2:1'], /cannot vary runners\.lenght/],
    [['sweep', 'a.yaml', '--vary', 'runners.length=2:1:1'], /--vary runners\.length=2:1:1: /],
    [['sweep', 'a.yaml', '--vary', 'runners.length=700', '--shard', '3/2'], /--shard is K\/N/],
    [['sweep', 'bad.yaml', '--vary', 'runners.length=700'], /bad\.yaml:\d+:\d+ runners\.length/],
    [['sweep'], /needs a plan/],
  ])('%j: exit 2 with the reason', (args, words) => {
    const ran = evenrun(args, folder);
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(words);
    expect(ran.out).toBe('');
  });
});
