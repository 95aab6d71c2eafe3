import { spawn } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { stringify } from 'yaml';
import { sixteen, trayScan } from '../support/load/sixteen.js';

/** Most processor time, s, and memory, MB, that such a build may take. */
const MOST = { seconds: 60, memory: 1500 };

/** Says what the work of a process cost, as its last line. */
const METER = `import { writeSync } from 'node:fs';
process.on('exit', () => {
  const { userCPUTime, systemCPUTime, maxRSS } = process.resourceUsage();
  writeSync(2, 'COST ' + (userCPUTime + systemCPUTime) / 1e6 + ' ' + maxRSS / 1024 + '\\n');
});`;

/** Checks and builds a plan of sixteen primaries without and with a scan of 500,000 triangles; prints what it cost. False over the limits. */
export async function scanLoad(): Promise<boolean> {
  const main = join(process.cwd(), 'dist/cli/main.js');
  const cwd = mkdtempSync(join(tmpdir(), 'evenrun-sixteen-'));
  const meter = `data:text/javascript,${encodeURIComponent(METER)}`;
  writeFileSync(join(cwd, 'bay.stl'), trayScan());
  writeFileSync(join(cwd, 'free.yaml'), stringify(sixteen(null)));
  writeFileSync(join(cwd, 'bay.yaml'), stringify(sixteen('bay.stl')));
  const run = (args: readonly string[]): Promise<{ code: number | null; cpu: number; memory: number }> =>
    new Promise((done) => {
      const child = spawn(process.execPath, ['--import', meter, main, ...args], {
        cwd,
        stdio: ['ignore', 'ignore', 'pipe'],
      });
      let err = '';
      child.stderr.on('data', (d) => {
        err += d;
      });
      child.once('close', (code) => {
        const [cpu, memory] = /COST (\S+) (\S+)/.exec(err)!.slice(1).map(Number) as [number, number];
        if (code !== 0) process.stdout.write(`${err.slice(0, 2000)}\n`);
        done({ code, cpu, memory });
      });
    });
  const rows = [];
  for (const [what, args] of [
    ['sixteen primaries, routed and checked', ['check', 'free.yaml']],
    ['the same in a scan of 500,000 triangles', ['check', 'bay.yaml']],
    ['the same, everything built', ['build', 'bay.yaml', '--out', 'out']],
  ] as const) {
    rows.push({ what, ...(await run(args)) });
  }
  const out = join(cwd, 'out');
  const sizes = readdirSync(out, { recursive: true, withFileTypes: true })
    .filter((e) => e.isFile())
    .map((e) => statSync(join(e.parentPath, e.name)).size);
  const { primaries } = JSON.parse(readFileSync(join(out, 'summary.json'), 'utf8')) as { primaries: unknown[] };
  rmSync(cwd, { recursive: true, force: true });
  process.stdout.write(`| what | exit | processor, s | peak memory, MB |\n|---|---|---|---|\n`);
  for (const { what, code, cpu, memory } of rows) {
    process.stdout.write(`| ${what} | ${code} | ${cpu.toFixed(1)} | ${memory.toFixed(0)} |\n`);
  }
  const total = sizes.reduce((a, b) => a + b, 0) / 1e6;
  process.stdout.write(`${primaries.length} primaries, ${sizes.length} files of ${total.toFixed(0)} MB.\n`);
  return rows.every((r) => r.code === 0 && r.cpu <= MOST.seconds && r.memory <= MOST.memory);
}
