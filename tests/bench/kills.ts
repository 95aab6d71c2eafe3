// Kills whole builds at random moments and looks at what stands in the folder after each: `npm run kills [-- COUNT]`.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { contentOf, killAtRandom } from '../support/interrupted-writes.js';

const kills = Number(process.argv[2] ?? 200);
const root = process.cwd();
const main = join(root, 'dist/cli/main.js');
const cwd = mkdtempSync(join(tmpdir(), 'evenrun-kills-'));
const folder = join(cwd, 'out');

const plan = readFileSync(join(root, 'templates/single.yaml'), 'utf8');
writeFileSync(join(cwd, 'a.yaml'), plan);
writeFileSync(join(cwd, 'b.yaml'), plan.replace(/^name: .*/m, 'name: another single'));
const command = (name: string): string[] => [main, 'build', `${name}.yaml`, '--out', 'out'];

let usual = 0;
const wholes = ['a', 'b'].map((name) => {
  const from = performance.now();
  spawnSync(process.execPath, command(name), { cwd });
  usual = performance.now() - from;
  return contentOf(folder);
}) as [string, string];

/** Park and Miller's generator: the same moments in every run, as parts of the usual time. */
let seed = 20_000_003;
const random = (): number => {
  seed = (seed * 48_271) % 2_147_483_647;
  return seed / 2_147_483_647;
};

/** Every second kill falls into the last tenth, where the files are written. */
const moment = (): number => (random() < 0.5 ? random() : 0.9 + 0.2 * random());

const tally = await killAtRandom((n) => command(n % 2 === 0 ? 'a' : 'b'), folder, wholes, {
  kills,
  usual,
  random: moment,
  cwd,
});
spawnSync(process.execPath, command('a'), { cwd });
const healed = contentOf(folder) === wholes[0];
rmSync(cwd, { recursive: true, force: true });

process.stdout.write(`${kills} builds killed, each usually ${(usual / 1000).toFixed(1)} s; ${tally.finished} ended before their kill.
| the folder held | times |
|---|---|
| the earlier build, whole | ${tally.earlier} |
| the new build, whole | ${tally.newer} |
| nothing: the earlier build stood whole beside, under a hidden name | ${tally.beside} |
| anything else | ${tally.broken} |
A build after that ${healed ? 'wrote the folder anew' : 'DID NOT put the folder right'}.
`);
process.exitCode = tally.broken === 0 && healed ? 0 : 1;
