/// <reference lib="dom" />
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openBrowser, openFile } from '../support/browser.js';
import { evenrun, TEMPLATE_FOLDER } from '../support/command.js';
import type { Ran } from '../support/run.js';

const folder = mkdtempSync(join(tmpdir(), 'evenrun-compare-'));
let browser: Browser | undefined;
let ran: Ran;

interface Told {
  readonly schema: string;
  readonly labels: readonly string[];
  readonly rows: readonly { name: string; unit: string; digits: number; values: (number | null)[] }[];
}
let told: Told;
const valuesOf = (name: string): (number | null)[] => told.rows.find((r) => r.name === name)!.values;

beforeAll(() => {
  const plan = readFileSync(`${TEMPLATE_FOLDER}v-twin.yaml`, 'utf8');
  const length = Number(/^runners:[\s\S]*?length: ([\d.]+)/m.exec(plan)![1]);
  writeFileSync(join(folder, 'short.yaml'), plan);
  writeFileSync(
    join(folder, 'long.yaml'),
    plan
      .replace(/^name: .*$/m, 'name: long <i>twin</i>')
      .replace(/^(runners:[\s\S]*?length: )[\d.]+/m, `$1${length + 60}`),
  );
  ran = evenrun(['compare', 'short.yaml', 'long.yaml', '--out', 'both.html', '--json'], folder);
  told = JSON.parse(ran.out) as Told;
});
afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

describe('evenrun compare', () => {
  it('tells both plans in numbers', () => {
    expect(ran.code).toBe(0);
    expect(told.schema).toBe('evenrun-comparison-1');
    expect(told.labels).toEqual(['A', 'B']);
    const [short, long] = valuesOf('length of the primaries');
    expect(long! - short!).toBeCloseTo(60, 9);
    expect(Math.max(...(valuesOf('spread') as number[]))).toBeLessThan(1e-6);
    for (const row of told.rows) expect(row.values.length, row.name).toBe(2);
    // the mass of the tubes grows with their length alone: same OD, wall and material
    const [light, heavy] = valuesOf('mass of the tubes') as number[];
    expect(heavy!).toBeGreaterThan(light!);
  });

  it('writes the same page again, over a page of its own', () => {
    const first = readFileSync(join(folder, 'both.html'));
    expect(evenrun(['compare', 'short.yaml', 'long.yaml', '--out', 'both.html'], folder).code).toBe(0);
    expect(readFileSync(join(folder, 'both.html')).equals(first)).toBe(true);
  });

  it('shows both in one page: numbers, differences, and both tubes over each other', async (context) => {
    browser ??= await openBrowser(context);
    const { page, faults } = await openFile(browser, join(folder, 'both.html'));
    await page.waitForFunction(() => performance.getEntriesByName('evenrun-drawn').length > 0);
    const rows = await page.$$eval('#numbers tbody tr', (all) =>
      all.map((row) => Array.from(row.children).map((c) => c.textContent!.trim())),
    );
    expect(rows.map((r) => [r[0], r[1]])).toEqual(told.rows.map((r) => [r.name, r.unit]));
    expect(rows.find((r) => r[0] === 'length of the primaries')!.at(-1)).toBe('+60.0');
    expect(await page.textContent('h1')).toContain('long <i>twin</i>');
    const overlay = (): Promise<string | null> =>
      page.evaluate('window.evenrun.view.state().overlay') as Promise<string | null>;
    expect(await overlay()).toBe('B');
    await page.selectOption('#overlay-choice', { label: 'nothing' });
    expect(await overlay()).toBeNull();
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('lays alternatives of one plan side by side', () => {
    const alternatives = evenrun(['compare', 'short.yaml', '--alternatives', '2', '--out', 'sets.html'], folder);
    expect(alternatives.code).toBe(0);
    expect(alternatives.out).toMatch(/set 1\s+set 2/);
    expect(readFileSync(join(folder, 'sets.html'), 'utf8')).toContain('set 2 less set 1');
  });

  it.each([
    [['compare', 'short.yaml', 'long.yaml'], /--out FILE.html/],
    [['compare', 'short.yaml', 'long.yaml', '--out', 'x.txt'], /--out FILE.html/],
    [['compare', 'short.yaml', 'none.yaml', '--out', 'x.html'], /none\.yaml/],
    [['compare', 'short.yaml', 'long.yaml', '--alternatives', '2', '--out', 'x.html'], /one plan/],
    [['compare', 'short.yaml', '--alternatives', '1', '--out', 'x.html'], /from 2 to 6/],
    [['compare', 'short.yaml', 'long.yaml', '--out', 'other.html'], /no page of evenrun/],
  ])('refuses %j with exit 2', (args, words) => {
    writeFileSync(join(folder, 'other.html'), '<p>mine</p>');
    const refused = evenrun(args, folder);
    expect(refused.code).toBe(2);
    expect(refused.err).toMatch(words);
    expect(readFileSync(join(folder, 'other.html'), 'utf8')).toBe('<p>mine</p>');
  });
});
