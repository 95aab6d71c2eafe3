/**
 * `npm run slice [-- STARTER ...]`: builds starters and hands every build plate of theirs to the slicer, which exports its paths; prints
 * a row each: plates, parts, plates it repaired, plates with something outside the bed. Exits 1 when it had to mend or refused anything.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { STARTERS } from '../../src/params/text/starter.js';
import { slicedPlate } from '../support/slicing.js';

const main = fileURLToPath(new URL('../../../../../dist/cli/main.js', import.meta.url));
const templates = fileURLToPath(new URL('../../../../../templates/', import.meta.url));
const asked = process.argv.slice(2);
const folder = mkdtempSync(join(tmpdir(), 'slice-'));
const all = { plates: 0, parts: 0, bad: 0 };

if (spawnSync('prusa-slicer', ['--help']).error) {
  console.error('prusa-slicer is not installed');
  process.exit(1);
}
console.log(['starter', 'exit', 'plates', 'parts', 'repaired', 'outside', 'with faults'].join('\t'));
for (const { name } of STARTERS) {
  if (asked.length > 0 && !asked.includes(name)) continue;
  const out = join(folder, name);
  const built = spawnSync(process.execPath, [main, 'build', join(templates, `${name}.yaml`), '--out', out]);
  const plates = readdirSync(join(out, 'print')).filter((f) => f.endsWith('.3mf'));
  const told = plates.map((plate) => ({ plate, ...slicedPlate('prusa-slicer', join(out, 'print', plate)) }));
  const bad = told.filter((t) => t.faults.length > 0);
  const parts = told.reduce((sum, t) => sum + t.parts, 0);
  all.plates += plates.length;
  all.parts += parts;
  all.bad += bad.length + (built.status === 0 ? 0 : 1);
  const count = (of: RegExp): number => told.filter((t) => t.faults.some((f) => of.test(f))).length;
  const [mended, outside] = [count(/repair|manifold = no|open_edges|facets_/i), count(/outside/i)];
  console.log([name, built.status, plates.length, parts, mended, outside, bad.length].join('\t'));
  for (const { plate, faults } of bad) console.log(`  ${plate}: ${faults.join('; ')}`);
  rmSync(out, { recursive: true });
}
rmSync(folder, { recursive: true });
console.log(`${all.plates} plates with ${all.parts} parts sliced, ${all.bad} faults`);
process.exitCode = all.bad === 0 ? 0 : 1;
