import { spawn } from 'node:child_process';
import { createWriteStream, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { memoryOf } from '../support/load/memory.js';
import { watchedRun } from '../support/load/watched-run.js';

/** Parts the sweep is cut into, each time anew. */
const SHARDS = [1, 3, 7] as const;

/** Heap of the program that goes through the whole sweep in one part, MB: half of what Node takes when it may, so that what is kept shows. */
const HEAP = 96;

/** Twelve lengths, five places of the collector, two bend radii and two bores: 240 designs of the single. */
const VARY = [
  'runners.length=690:745:5',
  'collector.at.1=-340:-320:5',
  'tube.bends.0.clr=66.75,80',
  'tube.od=44.5,42.4',
].flatMap((v) => ['--vary', v]);

/** After how many designs memory is looked at. */
const MARKS: readonly number[] = [20, 120, 220];

/** Sweeps 240 designs in 1, 3 and 7 parts and merges each; prints memory on the way and whether the bytes agree. False when not. */
export async function sweepLoad(): Promise<boolean> {
  const root = process.cwd();
  const main = join(root, 'dist/cli/main.js');
  const cwd = mkdtempSync(join(tmpdir(), 'evenrun-sweep-'));
  const seen: string[] = [];
  const shard = (k: number, n: number): Promise<string> =>
    new Promise((done) => {
      const name = `part-${n}-${k}.jsonl`;
      const file = createWriteStream(join(cwd, name));
      const args = [main, 'sweep', join(root, 'templates/single.yaml'), ...VARY, '--shard', `${k}/${n}`];
      const child = spawn(process.execPath, [`--max-old-space-size=${HEAP}`, ...args], {
        cwd,
        stdio: ['ignore', 'pipe', 'inherit'],
      });
      let lines = 0;
      child.stdout.on('data', (data: Buffer) => {
        for (const byte of data) if (byte === 10) lines += 1;
        const memory = n === 1 ? memoryOf(child.pid!) : null;
        if (memory && lines > MARKS[seen.length]!)
          seen.push(`${lines - 1} designs: ${memory.now.toFixed(0)} MB, peak ${memory.peak.toFixed(0)} MB`);
      });
      child.stdout.pipe(file);
      file.once('close', () => done(name));
    });
  const merged: string[] = [];
  for (const n of SHARDS) {
    const parts: string[] = [];
    for (let k = 1; k <= n; k++) parts.push(await shard(k, n));
    merged.push((await watchedRun([main, 'sweep', '--merge', ...parts.reverse()], { cwd })).out);
  }
  const same = merged.every((m) => m === merged[0] && m !== '');
  const outcomes = new Map<string, number>();
  for (const line of merged[0]!.trim().split('\n').slice(1)) {
    const { outcome } = JSON.parse(line) as { outcome: string };
    outcomes.set(outcome, (outcomes.get(outcome) ?? 0) + 1);
  }
  rmSync(cwd, { recursive: true, force: true });
  process.stdout.write(`A sweep of ${[...outcomes.values()].reduce((a, b) => a + b, 0)} designs (${[...outcomes].map(([o, c]) => `${c} ${o}`).join(', ')}) in ${SHARDS.join(', ')} parts: merged, the bytes ${same ? 'are the same' : 'DIFFER'}.
Memory on the way, the heap held to ${HEAP} MB: ${seen.join('; ')}.
`);
  return same;
}
