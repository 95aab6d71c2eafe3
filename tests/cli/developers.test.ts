import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { codeSpans, ROOT } from '../support/documents.js';

const TEXT = readFileSync(join(ROOT, 'DEVELOPERS.md'), 'utf8');
const FOLDERS = ['src', 'tests', 'templates', 'output-examples', '.ci'];
const FILES = [
  ...readdirSync(ROOT),
  ...FOLDERS.flatMap((f) =>
    readdirSync(join(ROOT, f), { recursive: true, encoding: 'utf8' }).map((path) => `${f}/${path}`),
  ),
].map((f) => `/${f.replaceAll('\\', '/')}`);
const { scripts } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8'));

describe('DEVELOPERS.md', () => {
  test('names only files and folders there are', () => {
    const named = codeSpans(TEXT).filter((s) => /^[\w.-]+(\/[\w.-]+)*(\.(ts|mjs|cjs|md|json|yaml)|\/)$/.test(s));
    expect(named.length).toBeGreaterThan(30);
    const missing = named.filter(
      (s) => !s.startsWith('dist/') && !FILES.some((f) => f.endsWith(`/${s.replace(/\/$/, '')}`)),
    );
    expect(missing).toEqual([]);
  });

  test('has every folder of the sources and every file beside them on its map', () => {
    const map = TEXT.slice(TEXT.indexOf('## Map'), TEXT.indexOf('## Conventions'));
    for (const entry of readdirSync(join(ROOT, 'src'), { withFileTypes: true })) {
      expect(map).toContain(entry.isDirectory() ? `\`src/${entry.name}\`` : entry.name);
    }
    for (const folder of FOLDERS.slice(1)) expect(map).toContain(`\`${folder}\``);
  });

  test('tells of every script but those that others run', () => {
    const told = new Set([...TEXT.matchAll(/npm (?:run )?([\w:-]+)/g)].map((m) => m[1]!));
    const within = ['build', 'prepare', 'lint', 'layers', 'types'];
    expect(Object.keys(scripts).filter((s) => !told.has(s) && !within.includes(s))).toEqual([]);
  });
});
