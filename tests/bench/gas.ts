import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { simulate } from '../../src/tuning/engine/simulate.js';
import { rpmRange } from '../../src/tuning/engine/sweep.js';
import { ductShape } from '../../src/tuning/gas/duct.js';
import { fillDuct } from '../../src/tuning/gas/duct-gas.js';
import { AIR, BURNED } from '../../src/tuning/gas/gas.js';
import { type GasNetwork, gasNetwork, networkContent, stepNetwork } from '../../src/tuning/gas/network.js';
import { ENGINE, fourIntoOne } from '../support/simple-exhaust.js';
import { processorTime } from './processor-time.js';

/** How many times as many cell updates a second as numpy. */
const TARGET = 3;

/** Cells of a four-cylinder exhaust, and so many that numpy's overhead no longer counts. */
const SIZES = [250, 10_000] as const;

/** Cells times steps of every timed run. */
const UPDATES = 2.5e6;

const RUNS = 3;

/** How far the cost of a cell update may move over sizes and steps and still count as linear. */
const LINEAR = 1.5;

/** Gas in pipes: our cell updates a second against the same scheme in numpy, a sweep of an inline four, cost over cells and steps. */
export function gasBench(): boolean {
  const faster = SIZES.map((cells) => againstNumpy(cells));
  const linear = linearity();
  inlineFour();
  // what counts is the size that exhausts have; the other is told beside it
  return linear && faster[0]!;
}

/** The pipe that gas_peer.py has too: a cone with waves in it, both ends closed. */
function pipe(cells: number): GasNetwork {
  const gases = { fresh: AIR, burned: BURNED };
  const length = 0.015 * cells;
  const area = (x: number): number => 1.3e-3 * (1 + (0.3 * x) / length);
  const shape = ductShape({ length, cells, area, wall: () => 750, roughness: 3e-5 });
  const duct = fillDuct(shape, gases, (at) => {
    const x = at / length;
    const pressure = 1e5 * (1 + 0.3 * Math.sin(6 * Math.PI * x));
    const r = AIR.r + x * (BURNED.r - AIR.r);
    const velocity = 60 * Math.sin(4 * Math.PI * x);
    return { density: pressure / (r * (800 + 200 * x)), velocity, pressure, burned: x };
  });
  const ends = (['start', 'end'] as const).map((side) => ({ duct: 0, side, kind: 'closed' }) as const);
  return gasNetwork({ gases, ducts: [duct], ends, volumes: [] });
}

/** Cell updates a second of the best of some runs. */
function rate(cells: number, steps: number): { rate: number; mass: number; energy: number } {
  let best = Number.POSITIVE_INFINITY;
  let network = pipe(cells);
  for (let run = 0; run < RUNS; run++) {
    network = pipe(cells);
    for (let k = 0; k < Math.max(10, Math.floor(steps / 20)); k++) stepNetwork(network, 1);
    const began = processorTime();
    for (let k = 0; k < steps; k++) stepNetwork(network, 1);
    best = Math.min(best, processorTime() - began);
  }
  const { mass, energy } = networkContent(network);
  return { rate: (cells * steps) / best, mass, energy };
}

function againstNumpy(cells: number): boolean {
  const steps = Math.round(UPDATES / cells);
  const ours = rate(cells, steps);
  const peer = numpyRate(cells, steps);
  if (peer === null) return false;
  const ratio = ours.rate / peer.rate;
  // the same gas after the same steps: else it would not be the same work
  const same = Math.abs(peer.mass / ours.mass - 1) < 1e-9 && Math.abs(peer.energy / ours.energy - 1) < 1e-9;
  const millions = (r: number): string => (r / 1e6).toFixed(1);
  const wanted = cells === SIZES[0] ? `at least ${TARGET}` : 'told, no target';
  console.log(
    `gas, ${cells} cells: ${millions(ours.rate)} million cell updates a second, numpy ${peer.numpy} ${millions(peer.rate)}: ${ratio.toFixed(1)} times as many (${wanted})${same ? '' : '; NOT the same gas'}`,
  );
  return same && ratio >= TARGET;
}

interface NumpyRate {
  readonly rate: number;
  readonly mass: number;
  readonly energy: number;
  readonly numpy: string;
}

/** The same by numpy on one thread; null, and said, when there is none. */
function numpyRate(cells: number, steps: number): NumpyRate | null {
  const script = fileURLToPath(new URL('../../../gas_peer.py', import.meta.url));
  const env = { ...process.env, OMP_NUM_THREADS: '1', OPENBLAS_NUM_THREADS: '1' };
  const faults: string[] = [];
  for (const command of ['python3', '/usr/bin/python3']) {
    const run = spawnSync(command, [script, String(cells), String(steps), String(RUNS)], { encoding: 'utf8', env });
    if (run.status === 0) return JSON.parse(run.stdout);
    faults.push((run.stderr ?? '').trim().split('\n').at(-1)!);
  }
  console.log(
    `gas, ${cells} cells: the peer did NOT run (Python with numpy; Debian: python3-numpy): ${faults.join('; ')}`,
  );
  return null;
}

/** Cost of a cell update over cells and over steps, as the spread of seconds for the same number of updates. */
function linearity(): boolean {
  const of = (cells: number, updates: number): number => 1e9 / rate(cells, Math.round(updates / cells)).rate;
  const cells = [100, 400, 1600, 6400].map((n) => ({ n, cost: of(n, 2e6) }));
  const steps = [1e3, 4e3, 16e3].map((n) => ({ n, cost: of(250, 250 * n) }));
  const words = (row: { n: number; cost: number }[]): string =>
    row.map(({ n, cost }) => `${n}: ${cost.toFixed(0)} ns`).join(', ');
  console.log(`gas, cost of a cell update by cells: ${words(cells)}; by steps of 250 cells: ${words(steps)}`);
  const costs = [...cells, ...steps].map((c) => c.cost);
  const spread = Math.max(...costs) / Math.min(...costs);
  console.log(
    `gas, dearest over cheapest cell update: ${spread.toFixed(2)} (linear in cells times steps: at most ${LINEAR})`,
  );
  return spread <= LINEAR;
}

/** A sweep of 25 speeds of an inline four at the resolution that plans get, in one thread. */
function inlineFour(): void {
  const [clock, began] = [performance.now(), processorTime()];
  const points = rpmRange(2000, 8000, 25).map((rpm) => simulate(fourIntoOne([0.7, 0.7, 0.7, 0.7]), ENGINE, rpm));
  const seconds = processorTime() - began;
  const updates = points.reduce((sum, { convergence: c }) => sum + c.cells * c.steps * c.cycles, 0);
  const calm = points.filter((p) => p.convergence.converged).length;
  console.log(
    `gas, 25 speeds of an inline four, ${points[0]!.convergence.cells} cells: ${seconds.toFixed(1)} s of one processor (${((performance.now() - clock) / 1000).toFixed(1)} s by the clock), ${(updates / 1e6).toFixed(0)} million cell updates, ${(updates / seconds / 1e6).toFixed(1)} million a second with valves and joints; ${calm} of 25 periodic`,
  );
}
