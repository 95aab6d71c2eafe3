import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, test } from 'vitest';
import { asBuiltForm, measureHeader } from '../../src/index.js';
import { codeBlocks } from '../support/code-blocks.js';
import { TEMPLATE_FOLDER } from '../support/command.js';
import { run } from '../support/run.js';
import { routedStarter } from '../support/starter.js';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const GUIDE = readFileSync(join(ROOT, 'src/guides/as-a-library.md'), 'utf8');

/** A stranger's package that has this one installed. */
const theirs = mkdtempSync(join(tmpdir(), 'evenrun-library-'));
afterAll(() => rmSync(theirs, { recursive: true }));

test('the example of the guide compiles against the installed package and does what it says', () => {
  const example = codeBlocks(GUIDE).find((b) => b.language === 'ts')!;
  mkdirSync(join(theirs, 'node_modules/@types'), { recursive: true });
  symlinkSync(ROOT, join(theirs, 'node_modules/evenrun'));
  symlinkSync(join(ROOT, 'node_modules/@types/node'), join(theirs, 'node_modules/@types/node'));
  copyFileSync(join(TEMPLATE_FOLDER, 'single.yaml'), join(theirs, 'single.yaml'));
  writeFileSync(join(theirs, 'package.json'), '{ "type": "module" }');
  writeFileSync(join(theirs, 'example.ts'), example.lines.join('\n'));
  const tsc = join(ROOT, 'node_modules/typescript/lib/tsc.js');
  const options = ['--strict', '--module', 'nodenext', '--target', 'es2022', '--skipLibCheck', 'example.ts'];
  expect(run(process.execPath, [tsc, ...options], theirs).out).toBe('');
  const ran = run(process.execPath, ['example.js'], theirs);
  expect(ran.err).toBe('');
  const lines = ran.out.trimEnd().split('\n');
  expect(lines[0]).toBe('cylinder 1: 720.0 mm');
  expect(lines.at(-1)).toMatch(/^\d+ files; all checks hold$/);
  expect(lines.slice(1, -1).every((l) => /^ {2}feed [\d.]+, turn -?[\d.]+, bend [\d.]+ at [\d.]+$/.test(l))).toBe(true);
});

test('the functions it names are there, and all functions are named', async () => {
  const library = await import('../../src/index.js');
  const named = [...GUIDE.slice(GUIDE.indexOf('| for |')).matchAll(/`(\w+)`/g)].map((m) => m[1]!);
  for (const name of Object.keys(library)) expect(named).toContain(name);
});

test('a form filled in as planned says that the tubes are equal', () => {
  const header = routedStarter('single');
  const measured = measureHeader(header, asBuiltForm(header), 'tubes.yaml');
  expect(measured.ok && measured.summary.groups[0]?.tubes[0]?.off_route_mm).toBeCloseTo(0, 1);
  const wrong = measureHeader(header, 'tubes: 3', 'tubes.yaml');
  expect(wrong.ok ? '' : wrong.text).toMatch(/^tubes\.yaml:\d+/);
});
