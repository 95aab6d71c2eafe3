import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { meshVolume } from '../../src/geometry/mesh/measure.js';
import { meshFromStl } from '../../src/geometry/mesh/stl-read.js';
import { codeBlocks, patched, pathOf } from '../support/code-blocks.js';
import { run } from '../support/run.js';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const TEXT = readFileSync(join(ROOT, 'DEVELOPERS.md'), 'utf8');
const BLOCKS = codeBlocks(TEXT.slice(TEXT.indexOf('## To add'), TEXT.indexOf('## Packages')));
const FILES = BLOCKS.filter((b) => b.language === 'ts');
const CHANGES = BLOCKS.filter((b) => b.language === 'diff');

/** Compiling everything anew takes this long on a busy machine, ms. */
const SLOW = 300_000;

/** A copy of the sources with the examples in it, compiled. */
const copy = mkdtempSync(join(tmpdir(), 'evenrun-developers-'));
afterAll(() => rmSync(copy, { recursive: true }));

beforeAll(() => {
  for (const name of ['src', 'tsconfig.json', 'package.json', 'dist/page'])
    cpSync(join(ROOT, name), join(copy, name), { recursive: true });
  symlinkSync(join(ROOT, 'node_modules'), join(copy, 'node_modules'));
  for (const block of FILES) {
    const path = join(copy, pathOf(block));
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, block.lines.join('\n'), { flag: 'wx' });
  }
  for (const block of CHANGES) {
    const path = join(copy, pathOf(block));
    writeFileSync(path, patched(readFileSync(path, 'utf8'), block));
  }
  const compiled = run(process.execPath, ['node_modules/typescript/lib/tsc.js', '--declaration', 'false'], copy);
  expect(compiled.out).toBe('');
  const single = readFileSync(join(ROOT, 'templates/single.yaml'), 'utf8');
  const plan = single
    .replace('{ kind: round, diameter: 40 }', '{ kind: egg, bottom: 42, top: 30, height: 48 }')
    .replace(/^jig:$/m, 'jig:\n  bench: {}');
  writeFileSync(join(copy, 'egg.yaml'), plan);
}, SLOW);

describe('the examples of DEVELOPERS.md, put into a copy of the sources', () => {
  test('are one new file each, and at most three lines that list it', () => {
    expect(FILES.map(pathOf).sort()).toEqual([
      'src/checks/bend-count.ts',
      'src/export/bench-card.ts',
      'src/params/port-shape/egg.ts',
      'src/parts/jigs/bench/go-ring.ts',
    ]);
    const added = CHANGES.flatMap((b) => b.lines).filter((l) => l.startsWith('+'));
    expect(added.length).toBeLessThanOrEqual(2 + 2 + 3 + 3);
  });

  test(
    'give a plan with the shape, the finding, the file and the jig',
    () => {
      const built = run(process.execPath, ['dist/cli/main.js', 'build', 'egg.yaml', '--out', 'egg', '--json'], copy);
      expect(built.err).not.toContain('Error');
      expect(built.code).toBe(0);
      const summary = JSON.parse(built.out);
      expect(summary.findings.filter((f: { id: string }) => f.id === 'bend.count')).toHaveLength(1);
      expect(summary.files).toContainEqual({ path: 'bench-card.txt', kind: 'bench-card' });
      expect(readFileSync(join(copy, 'egg/bench-card.txt'), 'utf8')).toMatch(
        /^single\n.*\ncylinder 1: 720\.0 mm, \d bends, inlet 1\n$/,
      );
    },
    SLOW,
  );

  test('give a jig of the volume a ring has', () => {
    const ring = meshFromStl(readFileSync(join(copy, 'egg/jigs/bench/go-ring-44-5.stl')));
    const inner = 44.5 / 2 + 0.2;
    const share = meshVolume(ring) / (Math.PI * ((inner + 4) ** 2 - inner ** 2) * 8);
    // facets stand inside the outer and outside the inner circle
    expect(share).toBeGreaterThan(0.97);
    expect(share).toBeLessThan(1);
  });

  test('give a port of the sizes the plan has', async () => {
    const { readPlan } = await import(join(copy, 'dist/index.js'));
    const read = readPlan(readFileSync(join(copy, 'egg.yaml'), 'utf8'), 'egg.yaml');
    const [port] = read.plan.ports;
    expect(port.shape).toBe('egg 42 x 30 mm, 48 mm high');
    const arcs = port.outline.vertices.filter((v: { bulge: number }) => v.bulge !== 0);
    expect(arcs.length).toBeGreaterThanOrEqual(2);
  });
});
