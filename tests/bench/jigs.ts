import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const JSCAD_TARGET = 3;
const OCC_TARGET = 5;
const MEMORY_LIMIT = 500;

interface Peer {
  readonly seconds: number;
  readonly own: number;
  readonly parts: number;
  readonly open: number;
  readonly wrong: readonly string[];
}

/** All jigs and the collector of the inline-four template, to STL, against the same parts by two other kernels; memory of a build. */
export function jigsBench(): boolean {
  const build = told('build') as { files: number; bytes: number; memory: number };
  const small = build.memory < MEMORY_LIMIT;
  console.log(
    `jigs: a whole build of inline-four (${build.files} files, ${(build.bytes / 1e6).toFixed(1)} MB) takes ${build.memory.toFixed(0)} MB at its peak (at most ${MEMORY_LIMIT})`,
  );
  const first = told('jscad') as { whole: number; parts: number; jscad: Peer };
  console.log(
    `jigs: all ${first.parts} solids made and written to STL in ${first.whole.toFixed(2)} s of processor time`,
  );
  const jscad = compared("@jscad/modeling's own booleans", first.jscad, JSCAD_TARGET);
  const second = told('occ') as { parts: number; native: number; occ: Peer | null };
  if (second.occ === null) {
    console.log(
      'jigs: against OpenCascade: not measured. Its build for Node is large and not among the packages here: install it in a folder ' +
        'of its own (npm i replicad-opencascadejs@1.1.0) and name that folder in OCC_FOLDER',
    );
    return small && jscad;
  }
  const left = second.parts - second.native;
  console.log(
    `jigs: ${left} solids with convex hulls or marks laid round a skin are left out of the next: OpenCascade has neither`,
  );
  return compared('OpenCascade (replicad-opencascadejs)', second.occ, OCC_TARGET) && small && jscad;
}

function compared(what: string, { seconds, own, parts, open, wrong }: Peer, target: number): boolean {
  const ratio = seconds / own;
  console.log(
    `jigs: ${parts} solids to STL, against ${what}: here ${own.toFixed(2)} s, there ${seconds.toFixed(2)} s: ${ratio.toFixed(1)} times ` +
      `faster (at least ${target}); there ${open} of them have open edges, here none; ${wrong.length} came out wrong there`,
  );
  for (const w of wrong) console.log(`jigs:   wrong there: ${w}`);
  return ratio >= target;
}

/** One measurement in a process of its own, so that memory and compiled code are its own. */
function told(what: 'build' | 'jscad' | 'occ'): unknown {
  const here = (name: string): string => fileURLToPath(new URL(name, import.meta.url));
  const run = spawnSync(process.execPath, ['--import', here('solid-hooks-on.js'), here('jigs-run.js'), what], {
    encoding: 'utf8',
    maxBuffer: 1e8,
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  if (run.status !== 0) throw new Error(`jigs-run ${what} ended with ${run.status}`);
  return JSON.parse(run.stdout.trim().split('\n').at(-1)!);
}
