import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { contentOf } from '../support/interrupted-writes.js';
import { type Meant, writePlans } from '../support/load/many-plans.js';
import { memoryOf } from '../support/load/memory.js';
import { type WatchedRun, watchedRun } from '../support/load/watched-run.js';

/** How many plans of a batch are built once more alone and compared byte for byte. */
const SAMPLE = 10;

/** What the batch says of a plan as it ends. */
const ENDED = /^plan-\d+\.yaml: (all checks hold|a check fails|plan refused|no route|fault of the program)/;

/** Builds so many plans in one batch, killed once after six in ten, then resumed; prints what came of it. False when anything is not as meant. */
export async function batchLoad(count: number): Promise<boolean> {
  const main = join(process.cwd(), 'dist/cli/main.js');
  const cwd = mkdtempSync(join(tmpdir(), 'evenrun-load-'));
  const plans = writePlans(cwd, count);
  const files = plans.map((p) => p.file);
  const marks = [0.1, 0.5, 1].map((part) => Math.max(1, Math.round(part * count)));
  const seen: string[] = [];
  const batch = async (killAfter: number, name: string): Promise<WatchedRun> => {
    let ended = 0;
    return watchedRun([main, 'build', ...files, '--out', 'built', '--jobs', '2', '--resume'], {
      cwd,
      onLine: (kill, line, _, pid) => {
        if (!ENDED.test(line)) return;
        ended += 1;
        const memory = marks.includes(ended) ? memoryOf(pid) : null;
        if (memory)
          seen.push(`${name}, ${ended} plans: ${memory.now.toFixed(0)} MB, peak ${memory.peak.toFixed(0)} MB`);
        if (ended === killAfter) kill();
      },
    });
  };
  const cut = await batch(Math.round(0.6 * count), 'first run');
  const resumed = await batch(Number.POSITIVE_INFINITY, 'resumed');
  const kept = resumed.out.split('\n').filter((l) => l.includes('(kept)')).length;
  const wrong = plans.filter(({ file, meant }) => !isAsMeant(resumed.out, file, meant));
  const compared = sampleOf(files.filter((_, i) => plans[i]!.meant === 'built'));
  mkdirSync(join(cwd, 'alone'));
  const differing = compared.filter((file) => {
    const name = file.replace('.yaml', '');
    spawnSync(process.execPath, [main, 'build', file, '--out', join('alone', name)], { cwd });
    return contentOf(join(cwd, 'alone', name)) !== contentOf(join(cwd, 'built', name));
  });
  rmSync(cwd, { recursive: true, force: true });
  process.stdout.write(`${count} plans in one batch, two at a time, killed after ${Math.round(0.6 * count)} (${minutes(cut)}) and resumed (${minutes(resumed)}):
${resumed.out.trim().split('\n').at(-1)}
${kept} kept from before the kill; ${wrong.length} not as meant${wrong.map((p) => `, ${p.file}`).join('')}.
${compared.length} built once more alone: ${differing.length} differ by any byte.
Memory of the batch itself: ${seen.join('; ')}.
`);
  return cut.code === null && resumed.code === 2 && wrong.length === 0 && differing.length === 0;
}

const minutes = ({ seconds }: WatchedRun): string => `${(seconds / 60).toFixed(1)} min`;

/** The row of a plan in the table says what was meant; a plan meant to be built may fail a check, and then says so. */
function isAsMeant(table: string, file: string, meant: Meant): boolean {
  const row = table.split('\n').find((l) => l.trim().startsWith(`${file} `)) ?? '';
  return { built: /all checks hold|a check fails/, refused: /plan refused/, 'no route': /no route/ }[meant].test(row);
}

/** Some of a list, evenly spread. */
const sampleOf = (files: readonly string[]): string[] => {
  const step = Math.max(1, Math.floor(files.length / SAMPLE));
  return files.filter((_, i) => i % step === 0).slice(0, SAMPLE);
};
