import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { TEMPLATE_FOLDER } from '../support/command.js';

/** Other versions of Node, as FC_NODES names their programs, colon-separated. */
const NODES = (process.env.FC_NODES ?? '').split(':').filter((n) => n !== '');

const MAIN = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'evenrun-nodes-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** What a call prints, and the SHA-256 of every file it leaves in `out`. */
function ranUnder(node: string, args: readonly string[], out: string): { told: string; sums: [string, string][] } {
  const ran = spawnSync(node, [MAIN, ...args, '--out', out], { cwd: folder, encoding: 'utf8' });
  if (ran.status !== 0) throw new Error(ran.stderr);
  const files = readdirSync(join(folder, out), { recursive: true, withFileTypes: true }).filter((e) => e.isFile());
  const sums = files.map((e): [string, string] => {
    const path = join(e.parentPath, e.name);
    return [path.slice(join(folder, out).length), createHash('sha256').update(readFileSync(path)).digest('hex')];
  });
  return { told: ran.stdout.replaceAll(out, 'OUT'), sums: sums.sort() };
}

const CALLS: readonly (readonly [what: string, args: readonly string[]])[] = [
  ['an inline four', ['build', join(TEMPLATE_FOLDER, 'inline-four.yaml')]],
  ['a 4-2-1', ['build', join(TEMPLATE_FOLDER, 'inline-four-421.yaml')]],
  ['the gas of an inline four', ['tune', join(TEMPLATE_FOLDER, 'inline-four.yaml'), '--simulate', '--points', '2']],
  ['a traced gasket', ['build', join(TEMPLATE_FOLDER, 'traced-gasket.yaml')]],
];

describe.skipIf(NODES.length === 0)('other versions of Node (FC_NODES)', () => {
  it.each(CALLS)('give the same bytes: %s', (what, args) => {
    const name = what.replace(/\W/g, '-');
    const own = ranUnder(process.execPath, args, `own-${name}`);
    expect(own.sums.length).toBeGreaterThan(3);
    for (const [i, node] of NODES.entries()) {
      const version = spawnSync(node, ['--version'], { encoding: 'utf8' }).stdout.trim();
      expect(version).toMatch(/^v\d+\./);
      expect(ranUnder(node, args, `other-${i}-${name}`), version).toEqual(own);
    }
  });
});
