import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { bendTable } from '../../src/export/bend-table.js';
import type { ControlPolygon } from '../../src/geometry/path.js';
import { solve } from '../../src/routing/solve.js';
import { type BackwardLayout, backwardLayout, tubesOf } from '../support/backward-layouts.js';
import { tubesFromBendTable } from '../support/bend-table-length.js';
import { DENSE_ERROR, routeFaults } from '../support/route-faults.js';
import { peerProblem } from './peer-problem.js';
import { median } from './quantile.js';

const LAYOUTS = 50;
const TUBES = 4;
/** Wall time each gets for a layout, s. */
const BUDGET = 5;
const TARGET = 20;

interface Tried {
  readonly ok: boolean;
  readonly seconds: number;
}

/**
 * Routes random four-primary layouts that are known to be solvable, here and as nonlinear programmes by scipy's SLSQP, one after the
 * other on the same machine with the same time for each layout. Both results are judged by the same plain arithmetic.
 */
export async function peerBench(): Promise<boolean> {
  const python = pythonWithScipy();
  if (!python) {
    console.error('the peer is missing: this part needs scipy (Debian: python3-scipy)');
    return false;
  }
  const peer = peerProcess(python.command);
  const layouts: BackwardLayout[] = [];
  for (let seed = 1; layouts.length < LAYOUTS; seed++) {
    if (tubesOf(seed) === TUBES) layouts.push(backwardLayout(seed));
  }
  for (const layout of layouts.slice(0, 3)) ours(layout); // warm
  const own: Tried[] = [];
  const theirs: Tried[] = [];
  for (const layout of layouts) {
    own.push(ours(layout));
    theirs.push(await peers(peer, layout));
  }
  peer.end();
  const [a, b] = [summed(own), summed(theirs)];
  const ratio = b.each / a.each;
  const pairs = own.map((o, i) => theirs[i]!.seconds / o.seconds);
  console.log(
    `${LAYOUTS} random solvable layouts of four primaries, ${BUDGET} s each: ${a.solved} solved here, ` +
      `${b.solved} by scipy ${python.version} SLSQP`,
  );
  console.log(
    `time spent per layout solved: ${a.each.toFixed(2)} s here, ${b.each.toFixed(2)} s by SLSQP: ${ratio.toFixed(0)} times faster ` +
      `(at least ${TARGET}); layout by layout at least ${median(pairs).toFixed(0)} times in the median`,
  );
  return ratio >= TARGET && a.solved >= b.solved;
}

function ours({ plan }: BackwardLayout): Tried {
  const started = performance.now();
  const solution = solve(plan, { goOn: () => performance.now() - started < 1000 * BUDGET });
  const seconds = (performance.now() - started) / 1000;
  if (!solution.ok) return { ok: false, seconds };
  const table = new TextDecoder().decode(bendTable(solution.sets[0]!.primaries).bytes);
  const faults = routeFaults(plan, tubesFromBendTable(table));
  if (faults.length > 0) throw new Error(`${plan.name}: ${faults.join('; ')}`);
  return { ok: seconds <= BUDGET, seconds };
}

interface Answer extends Tried {
  readonly polygons: readonly ControlPolygon['points'][];
}

async function peers(peer: Peer, layout: BackwardLayout): Promise<Tried> {
  const problem = peerProblem(layout, BUDGET);
  const answer = await peer.ask(problem);
  if (!answer.ok) return answer;
  const tubes = new Map(
    problem.tubes.map((t, i) => [t.cylinder, { points: answer.polygons[i]!, clr: t.clr }] as const),
  );
  const faults = routeFaults(layout.plan, tubes, { ends: 1e-6, gaps: DENSE_ERROR });
  if (faults.length > 0) throw new Error(`the peer's ${layout.plan.name}: ${faults.join('; ')}`);
  return answer;
}

function summed(tried: readonly Tried[]): { solved: number; each: number } {
  const solved = tried.filter((t) => t.ok).length;
  return { solved, each: tried.reduce((sum, t) => sum + t.seconds, 0) / solved };
}

function pythonWithScipy(): { command: string; version: string } | null {
  for (const command of ['python3', '/usr/bin/python3', 'python']) {
    const told = spawnSync(command, ['-c', 'import scipy; print(scipy.__version__)'], { encoding: 'utf8' });
    if (told.status === 0) return { command, version: told.stdout.trim() };
  }
  return null;
}

interface Peer {
  readonly ask: (problem: object) => Promise<Answer>;
  readonly end: () => void;
}

/** One process for all layouts, so that its start does not count. */
function peerProcess(python: string): Peer {
  const script = fileURLToPath(new URL('../../../nlp_peer.py', import.meta.url));
  const env = { ...process.env, OPENBLAS_NUM_THREADS: '1', OMP_NUM_THREADS: '1' };
  const child: ChildProcess = spawn(python, [script], { env, stdio: ['pipe', 'pipe', 'inherit'] });
  const lines = createInterface({ input: child.stdout! })[Symbol.asyncIterator]();
  return {
    ask: async (problem) => {
      child.stdin!.write(`${JSON.stringify(problem)}\n`);
      const { value, done } = await lines.next();
      if (done) throw new Error('the peer ended');
      return JSON.parse(value) as Answer;
    },
    end: () => child.stdin!.end(),
  };
}
