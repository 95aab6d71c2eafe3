import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, relative } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { evenrun } from '../support/command.js';
import { HOSTILE, hostilePlan } from '../support/hard-input/hostile-plan.js';

const above = mkdtempSync(join(tmpdir(), 'evenrun-hostile-'));
const folder = join(above, 'work');
afterAll(() => rmSync(above, { recursive: true, force: true }));

const files = (): string[] =>
  readdirSync(above, { recursive: true, withFileTypes: true })
    .filter((e) => e.isFile())
    .map((e) => relative(above, join(e.parentPath, e.name)));
const text = (path: string): string => readFileSync(join(above, path), 'utf8');
const ending = (...ends: readonly string[]): string[] => files().filter((f) => ends.some((e) => f.endsWith(e)));

beforeAll(() => {
  mkdirSync(folder);
  writeFileSync(join(folder, 'plan.yaml'), hostilePlan());
  const built = evenrun(['build', 'plan.yaml', '--out', 'out'], folder);
  expect(built.code, built.err).toBeLessThanOrEqual(1);
  const tuned = evenrun(['tune', 'plan.yaml', '--out', 'tuned'], folder);
  expect(tuned.code, tuned.err).toBeLessThanOrEqual(1);
  const compared = evenrun(['compare', 'plan.yaml', '--out', 'both.html'], folder);
  expect([0, 1, 3], compared.err).toContain(compared.code);
}, 300_000);

describe('names that do harm where they are trusted', () => {
  it('lead to plain file names inside the folder, none of them a device', () => {
    expect(files().length).toBeGreaterThan(60);
    for (const path of files()) {
      expect(path).toMatch(/^work\/(plan\.yaml|both\.html|(out|tuned)\/([\w-]+\/)*[\w.-]+)$/);
      expect(path).not.toMatch(/\/(con|prn|aux|nul|com\d|lpt\d)\./i);
    }
  });

  it('stand as text in pages and drawings', () => {
    const pages = ending('.html', '.svg');
    expect(pages.length).toBeGreaterThan(10);
    for (const page of pages) expect(text(page), page).not.toMatch(/<img src=x|<script>alert|<\/script><svg|"><script/);
    expect(text('work/out/book.html')).toContain('&lt;img src=x onerror=alert(1)&gt;');
  });

  it('are no formulas in tables', () => {
    const tables = ending('.csv');
    expect(tables.length).toBeGreaterThan(5);
    for (const table of tables) {
      const cells = text(table)
        .split(/\r\n|,/)
        .map((c) => c.replace(/^"/, ''));
      for (const cell of cells) expect(cell, table).not.toMatch(/^[=+@\t]|^-(?![\d.])|^-2\+3/);
    }
    expect(tables.some((t) => text(t).includes(`'${HOSTILE.tube}`))).toBe(true);
  });
});
