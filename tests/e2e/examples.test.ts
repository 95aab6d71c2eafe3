import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, it } from 'vitest';

const EXAMPLES = fileURLToPath(new URL('../../output-examples/', import.meta.url));
/** What stands beside the examples. */
const BESIDE: readonly string[] = [
  'regenerate.mjs',
  'picture.mjs',
  'mock-up.png',
  'screenshots.mjs',
  'book-390.png',
  'book-820.png',
  'book-1440.png',
];

const folder = mkdtempSync(join(tmpdir(), 'evenrun-compare-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const filesIn = (root: string): string[] =>
  readdirSync(root, { recursive: true, withFileTypes: true })
    .filter((e) => e.isFile() && !BESIDE.includes(e.name))
    .map((e) => join(e.parentPath, e.name).slice(root.length).replace(/^\//, ''))
    .sort();

it('output-examples holds what the first two starters give, byte for byte; mend with: npm run examples', () => {
  const ran = spawnSync(process.execPath, [join(EXAMPLES, 'regenerate.mjs'), folder], { encoding: 'utf8' });
  expect(ran.stderr).not.toMatch(/Error/);
  expect(ran.status).toBe(0);
  expect(filesIn(EXAMPLES)).toEqual(filesIn(folder));
  for (const file of filesIn(folder)) {
    const same = readFileSync(join(EXAMPLES, file)).equals(readFileSync(join(folder, file)));
    expect(same, file).toBe(true);
  }
});
