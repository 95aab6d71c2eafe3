/**
 * `npm run slice [-- STARTER ...]`: builds starters and hands every build plate of theirs to the slicer, which exports its paths; prints
 * a row each: plates, parts, plates it repaired, plates with something outside the bed. Exits 1 when it had to mend or refused anything.
 */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { STARTERS } from '../../src/params/starter.js';

const main = fileURLToPath(new URL('../../../../../dist/cli/main.js', import.meta.url));
const templates = fileURLToPath(new URL('../../../../../templates/', import.meta.url));
const asked = process.argv.slice(2);
const folder = mkdtempSync(join(tmpdir(), 'slice-'));
const all = { plates: 0, parts: 0, bad: 0 };

/**
 * Coarse but whole: every part is cut into layers and its outlines become paths, which is where the slicer repairs or refuses; filling and
 * solid layers take time and prove nothing of the mesh.
 */
const COARSE = [
  ['--layer-height', '0.3'],
  ['--first-layer-height', '0.3'],
  ['--perimeters', '1'],
  ['--fill-density', '0%'],
  ['--top-solid-layers', '1'],
  ['--bottom-solid-layers', '1'],
  ['--skirts', '0'],
  ['--bed-shape', '0x0,210x0,210x210,0x210'],
].flat();

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
  const told = plates.map((plate) => ({ plate, ...sliced(join(out, 'print', plate)) }));
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

/** What the slicer says of a plate. */
function sliced(path: string): { parts: number; faults: readonly string[] } {
  const info = spawnSync('prusa-slicer', ['--info', path], { encoding: 'utf8' });
  const text = info.stdout + info.stderr;
  const parts = text.match(/manifold = /g)?.length ?? 0;
  const faults = text
    .split('\n')
    .filter((l) => /repair|manifold = no|open_edges = [1-9]|facets_(removed|reversed) = [1-9]/i.test(l));
  const gcode = `${path}.gcode`;
  const export_ = spawnSync('prusa-slicer', ['--export-gcode', '--dont-arrange', ...COARSE, '-o', gcode, path], {
    encoding: 'utf8',
  });
  const said = (export_.stdout + export_.stderr).split('\n').filter((l) => /repair|outside|error/i.test(l));
  if (export_.status !== 0) said.push(`exit ${export_.status}`);
  else if (!/^G1 X.* E/m.test(readFileSync(gcode, 'utf8'))) said.push('no paths');
  return { parts, faults: [...faults, ...said] };
}
