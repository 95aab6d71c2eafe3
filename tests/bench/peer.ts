import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { bendTable } from '../../src/export/csv/bend-table.js';
import type { ControlPolygon } from '../../src/geometry/path/control-polygon.js';
import { solve } from '../../src/routing/solve.js';
import { type BackwardLayout, backwardLayout, tubesOf } from '../support/backward-layouts.js';
import { tubesFromBendTable } from '../support/bend-table-length.js';
import { DENSE_ERROR, routeFaults } from '../support/route-faults.js';
import { peerProblem } from './peer-problem.js';
import { processorTime } from './processor-time.js';

const LAYOUTS = 50;
/** Of these, how many are also routed as well as either can, not only so that the limits hold. */
const BEST = 15;
const TUBES = 4;
/** Processor time each gets for a layout, s. */
const BUDGET = 4;
const TARGET = 20;

interface Tried {
  readonly ok: boolean;
  readonly seconds: number;
}

/**
 * Routes random four-primary layouts that are known to be solvable, here and as nonlinear programmes by scipy's SLSQP, one after the
 * other on the same machine with the same time for each layout: up to the first set of routes that holds, and for some of them to
 * routes of little bending. All are judged by the same plain arithmetic. The time of a layout that is not solved counts: what is
 * compared is the time spent for every layout solved.
 */
export async function peerBench(): Promise<boolean> {
  const python = pythonWithScipy();
  if (!python) {
    console.error('the peer is missing: this part needs Python with scipy (Debian: python3-scipy)');
    return false;
  }
  const peer = peerProcess(python.command);
  const layouts: BackwardLayout[] = [];
  for (let seed = 1; layouts.length < LAYOUTS; seed++) {
    if (tubesOf(seed) === TUBES) layouts.push(backwardLayout(seed));
  }
  for (const quick of [true, false]) for (const layout of layouts.slice(0, 3)) ours(layout, quick); // warm
  console.log(
    `peer: random solvable layouts of four primaries, at most ${BUDGET} s each, against scipy ${python.version} SLSQP`,
  );
  const own = layouts.map((layout) => ours(layout, true));
  const theirs: Tried[] = [];
  for (const layout of layouts) theirs.push(await peers(peer, layout, false));
  const ratio = compared(`the first set that holds (at least ${TARGET} times)`, own, theirs);
  const some = layouts.slice(0, BEST);
  const least: Tried[] = [];
  for (const layout of some) least.push(await peers(peer, layout, true));
  compared(
    'the least bending',
    some.map((layout) => ours(layout, false)),
    least,
  );
  peer.end();
  return ratio >= TARGET && solvedOf(own) >= solvedOf(theirs);
}

/** Prints one comparison; the ratio of the times spent per layout solved. */
function compared(what: string, own: readonly Tried[], theirs: readonly Tried[]): number {
  const ratio = eachOf(theirs) / eachOf(own);
  console.log(
    `peer, ${what}: solved here ${solvedOf(own)}, there ${solvedOf(theirs)} of ${own.length}; time spent per layout solved: ` +
      `here ${eachOf(own).toFixed(2)} s, there ${eachOf(theirs).toFixed(2)} s: ${ratio.toFixed(0)} times faster`,
  );
  return ratio;
}

const solvedOf = (tried: readonly Tried[]): number => tried.filter((t) => t.ok).length;

const eachOf = (tried: readonly Tried[]): number => tried.reduce((sum, t) => sum + t.seconds, 0) / solvedOf(tried);

function ours({ plan }: BackwardLayout, quick: boolean): Tried {
  const started = processorTime();
  const solution = solve(plan, { quick, goOn: () => processorTime() - started < BUDGET });
  const seconds = processorTime() - started;
  if (!solution.ok) return { ok: false, seconds };
  const table = new TextDecoder().decode(bendTable(solution.sets[0]!.primaries).bytes);
  const faults = routeFaults(plan, tubesFromBendTable(table));
  if (faults.length > 0) throw new Error(`${plan.name}: ${faults.join('; ')}`);
  return { ok: seconds <= BUDGET, seconds };
}

interface Answer extends Tried {
  readonly polygons: readonly ControlPolygon['points'][];
}

async function peers(peer: Peer, layout: BackwardLayout, cost: boolean): Promise<Tried> {
  const problem = peerProblem(layout, BUDGET, cost);
  const answer = await peer.ask(problem);
  if (!answer.ok) return answer;
  const tubes = new Map(
    problem.tubes.map((t, i) => [t.cylinder, { points: answer.polygons[i]!, clr: t.clr }] as const),
  );
  const faults = routeFaults(layout.plan, tubes, { ends: 1e-6, gaps: DENSE_ERROR });
  if (faults.length > 0) throw new Error(`the peer's ${layout.plan.name}: ${faults.join('; ')}`);
  return answer;
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
