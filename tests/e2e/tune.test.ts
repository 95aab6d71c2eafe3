import { copyFileSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { STARTERS } from '../../src/params/text/starter.js';
import { evenrun, TEMPLATE_FOLDER } from '../support/command.js';

const folder = mkdtempSync(join(tmpdir(), 'evenrun-tune-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const FOUR = readFileSync(join(TEMPLATE_FOLDER, 'inline-four.yaml'), 'utf8');
const WITHOUT = FOUR.slice(0, FOUR.indexOf('# What `evenrun tune` compares'));

function planOf(name: string, text: string): string {
  writeFileSync(join(folder, `${name}.yaml`), text);
  return `${name}.yaml`;
}

describe.each(STARTERS)('evenrun tune of the starter $name', ({ name, files = [] }) => {
  it('tells lengths by the rules for the plan as it stands', () => {
    for (const file of files) copyFileSync(join(TEMPLATE_FOLDER, file), join(folder, file));
    const plan = planOf(`starter-${name}`, readFileSync(join(TEMPLATE_FOLDER, `${name}.yaml`), 'utf8'));
    const ran = evenrun(['tune', plan, '--json'], folder);
    expect(ran.code, ran.err + ran.out).toBe(0);
    expect(JSON.parse(ran.out).lengths.length).toBeGreaterThan(3);
  });
});

describe('evenrun tune', () => {
  it('prints the rules side by side without routing', () => {
    const ran = evenrun(['tune', planOf('plain', WITHOUT)], folder);
    expect(ran.code, ran.err).toBe(0);
    expect(ran.out).toContain('Tuning by published rules');
    expect(ran.out).toContain('For 6800 rev/min.');
    expect(ran.out).toMatch(/exhaust period +685\.8 mm +605\.8 mm/);
    expect(ran.out).toContain('Nothing was written.');
    expect(ran.err).not.toContain('routing');
  });

  it('takes another engine speed: lengths fall as it rises', () => {
    const at = (rpm: string) => JSON.parse(evenrun(['tune', 'plain.yaml', '--json', '--rpm', rpm], folder).out);
    const [slow, fast] = [at('5000'), at('8000')];
    expect([slow.rpm, fast.rpm]).toEqual([5000, 8000]);
    slow.lengths.forEach((l: { from_valve_mm: number }, i: number) => {
      expect(fast.lengths[i].from_valve_mm).toBeLessThan(l.from_valve_mm);
    });
    expect(slow.cautions.length).toBeGreaterThan(0);
  });

  it('writes pages, tables and plots, and again over its own', () => {
    planOf('four', FOUR);
    const first = evenrun(['tune', 'four.yaml', '--out', 'tuned'], folder);
    expect(first.code, first.err).toBe(0);
    const files = readdirSync(join(folder, 'tuned', 'tuning')).sort();
    expect(files).toEqual(['audit.csv', 'lengths.svg', 'rules.csv', 'stations.csv', 'tuning.html', 'tuning.pdf']);
    const before = readFileSync(join(folder, 'tuned', 'tuning', 'tuning.pdf'));
    expect(evenrun(['tune', 'four.yaml', '--out', 'tuned'], folder).code).toBe(0);
    expect(readFileSync(join(folder, 'tuned', 'tuning', 'tuning.pdf')).equals(before)).toBe(true);
    expect(first.out).toContain('Header or cast manifold');
  });

  it('leaves a folder of something else alone', () => {
    writeFileSync(join(folder, 'note.txt'), 'mine');
    const ran = evenrun(['tune', 'four.yaml', '--out', '.'], folder);
    expect(ran.code).toBe(2);
    expect(existsSync(join(folder, 'tuning.json'))).toBe(false);
  });

  it('calculates header and manifold and says which to choose', () => {
    const ran = evenrun(['tune', 'four.yaml', '--simulate', '--points', '2', '--json'], folder);
    expect(ran.code, ran.err).toBe(0);
    const { sweeps, verdict } = JSON.parse(ran.out);
    expect(sweeps.map((s: { system: string }) => s.system)).toEqual(['as routed', 'existing manifold']);
    expect(verdict[0]).toMatch(/^(Choose the header|Keep the cast manifold|It depends)/);
  }, 120_000);
});

describe('evenrun tune refuses', () => {
  it.each([
    [['--rpm', '90'], /--rpm is an engine speed from 300 to 30000 rev\/min, not 90/],
    [['--simulate', '--points', '1'], /--points is a whole number from 2 to 100, not 1/],
    [['--search'], /--search calculates the gas: add --simulate/],
    [['--simulat'], /Did you mean --simulate/],
  ] as const)('%j', (args, message) => {
    const ran = evenrun(['tune', planOf('plain', WITHOUT), ...args], folder);
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(message);
  });

  it('a plan without valve events, naming them', () => {
    const text = WITHOUT.replace(/ {2}cam:[\s\S]*? {2}rpm:/, '  rpm:').replace(', length_in_head: 80', '');
    const ran = evenrun(['tune', planOf('bare', text)], folder);
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(/engine\.cam: missing/);
    expect(ran.err).toMatch(/length_in_head: missing; .* the port of cylinder 1 has none/);
  });
});

describe('runners.length: tuned', () => {
  const tuned = (rule: string) => `${WITHOUT.replace('length: 760 ', 'length: tuned ')}tuning: { ${rule} }\n`;

  it('routes to the length of the rule and says which', () => {
    const ran = evenrun(['check', planOf('tuned', tuned('rule: duration, rpm: 5700')), '--json'], folder);
    expect(ran.code, ran.err).toBe(0);
    const summary = JSON.parse(ran.out);
    const length = ((850 * 240) / 5700 - 3) * 25.4 - 80;
    expect(summary.target_from).toBe('rule duration at 5700 rev/min');
    for (const p of summary.primaries) expect(p.length_mm).toBeCloseTo(length, 6);
  }, 60_000);

  it('names line and field where the rule gives no length', () => {
    const ran = evenrun(['check', planOf('wild', tuned('rpm: 29000'))], folder);
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(
      /wild\.yaml:\d+:\d+ runners\.length: the rule duration asks for .* expected 100 mm to 3000 mm/,
    );
  });
});

describe('evenrun build --simulate', () => {
  it('puts what was calculated in the book, with the figures of the table', () => {
    const ran = evenrun(['build', planOf('blown', FOUR), '--out', 'blown', '--simulate'], folder);
    expect(ran.code, ran.err).toBe(0);
    const book = readFileSync(join(folder, 'blown/book.html'), 'utf8');
    expect(book).toContain('Calculated over engine speed');
    const [head, ...rows] = readFileSync(join(folder, 'blown/tuning/sweep.csv'), 'utf8').trim().split('\r\n');
    expect(head).toMatch(/rpm/);
    // header and manifold at thirteen speeds, a row for each cylinder
    expect(rows).toHaveLength(2 * 13 * 4);
    for (const row of rows) expect(row).not.toMatch(/NaN|Infinity/);
  });
});
