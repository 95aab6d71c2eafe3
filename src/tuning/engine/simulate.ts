import type { ExhaustSystem } from '../exhaust-system.js';
import { networkContent, stepNetwork } from '../gas/network.js';
import { CYCLE, traceChange } from './crank-trace.js';
import { cylinderResult } from './cylinder-result.js';
import { type ExhaustNetwork, exhaustNetwork } from './exhaust-network.js';
import { checkedEngine, type GasEngine } from './gas-engine.js';
import { checkedRpm, optionsOf, type SimulateOptions } from './options.js';
import { clearOutlet, outletResult, type RunningOutlet, runOutlet, startOutlet } from './outlet.js';
import { cylinderVolume } from './piston.js';
import type { RpmResult } from './results.js';
import { clearSums, type RunningCylinder, runCylinder, setValve, startCylinder } from './running-cylinder.js';

/** Crank degrees that a step never passes: the valves move little in it. */
const LONGEST_STEP = 0.5;

/** Cycles before the change from one to the next is looked at: the first only fills the pipes. */
const LEAST_CYCLES = 3;

/** An engine on its exhaust, running. */
interface Running {
  readonly engine: GasEngine;
  readonly exhaust: ExhaustNetwork;
  readonly cylinders: readonly RunningCylinder[];
  readonly outlets: readonly RunningOutlet[];
  /** Crank degrees since the first cylinder fired first. */
  crank: number;
}

/**
 * The periodic state of an engine on an exhaust at one speed, rev/min: cycle after cycle until one is like the one before. The same
 * input gives the same figures to the last bit. Throws RangeError for what is unphysical, with the range.
 */
export function simulate(
  system: ExhaustSystem,
  engine: GasEngine,
  rpm: number,
  given: Partial<SimulateOptions> = {},
): RpmResult {
  const options = optionsOf(given);
  checkedRpm(rpm);
  const running = start(system, checkedEngine(engine), options);
  let before: Signature | null = null;
  for (let cycle = 1; ; cycle++) {
    const { steps, massError } = runCycle(running, rpm);
    const now = signature(running);
    const change = before === null ? Number.POSITIVE_INFINITY : changeBetween(before, now);
    const converged = cycle >= LEAST_CYCLES && change <= options.limit;
    if (converged || cycle >= options.mostCycles) {
      const { ducts } = running.exhaust.network;
      const cells = ducts.reduce((sum, d) => sum + d.mass.length, 0);
      const convergence = { converged, cycles: cycle, change, limit: options.limit, cells, steps, massError };
      const cylinders = running.cylinders.map((c) => cylinderResult(engine, c));
      const turbine = system.end.kind === 'turbine';
      return { rpm, cylinders, outlets: running.outlets.map((o) => outletResult(o, turbine)), convergence };
    }
    before = now;
  }
}

function start(system: ExhaustSystem, engine: GasEngine, options: SimulateOptions): Running {
  const exhaust = exhaustNetwork(system, cylinderVolume(engine, 180), options);
  const { network } = exhaust;
  const cylinders = exhaust.valves.map((valve) => {
    const fires = engine.firing.find((f) => f.cylinder === valve.cylinder);
    if (fires === undefined) throw new RangeError(`cylinder ${valve.cylinder} has a pipe but never fires`);
    return startCylinder(engine, network, valve, (CYCLE - fires.at) % CYCLE);
  });
  const outlets = exhaust.outlets.map((o) => startOutlet(o.pipe, network.ducts[o.duct]!, o.beyond));
  return { engine, exhaust, cylinders: byNumber(cylinders), outlets, crank: 0 };
}

const byNumber = (cylinders: RunningCylinder[]): RunningCylinder[] =>
  cylinders.sort((a, b) => a.valve.cylinder - b.valve.cylinder);

/** Two turns of the crank. */
function runCycle(running: Running, rpm: number): { steps: number; massError: number } {
  const { engine, exhaust, cylinders, outlets } = running;
  const { network } = exhaust;
  const perSecond = 6 * rpm;
  for (const c of cylinders) clearSums(c);
  for (const o of outlets) clearOutlet(o);
  const before = massWithin(running);
  let steps = 0;
  running.crank = 0;
  while (running.crank < CYCLE) {
    const left = CYCLE - running.crank;
    for (const c of cylinders) setValve(engine, c);
    const dt = stepNetwork(network, Math.min(left, LONGEST_STEP) / perSecond);
    // the last step ends on the cycle, whatever rounding says
    const degrees = dt * perSecond > left - 1e-9 ? left : dt * perSecond;
    for (const c of cylinders) runCylinder(engine, network, c, degrees, dt);
    for (const o of outlets) runOutlet(o, running.crank, running.crank + degrees, dt);
    running.crank = degrees === left ? CYCLE : running.crank + degrees;
    steps++;
  }
  const drawn = cylinders.reduce((sum, c) => sum + c.sums.drawn, 0);
  const left = outlets.reduce((sum, o) => sum + o.mass, 0);
  return { steps, massError: Math.abs(massWithin(running) - before - drawn + left) / before };
}

/** Everything in pipes, joints, cylinders and intake ports, kg. */
const massWithin = ({ exhaust, cylinders }: Running): number =>
  networkContent(exhaust.network).mass + cylinders.reduce((sum, c) => sum + c.port.mass, 0);

/** What is compared from cycle to cycle. */
interface Signature {
  readonly masses: readonly number[];
  readonly traces: readonly Float64Array[];
}

const signature = ({ cylinders }: Running): Signature => ({
  masses: cylinders.flatMap((c) => [c.sums.freshCharge, c.sums.exhausted]),
  traces: cylinders.map((c) => c.valveTrace.values.slice()),
});

/** Largest change of any mass, and of any pressure behind a valve over its mean. */
function changeBetween(before: Signature, now: Signature): number {
  const masses = now.masses.map((m, i) => Math.abs(m - before.masses[i]!) / Math.max(Math.abs(m), 1e-12));
  const traces = now.traces.map(
    (t, i) => traceChange(before.traces[i]!, t) / (t.reduce((a, b) => a + b, 0) / t.length),
  );
  return Math.max(...masses, ...traces);
}
