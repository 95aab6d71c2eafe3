import { Worker } from 'node:worker_threads';
import type { ExhaustSystem } from '../exhaust-system.js';
import { assumptionsOf, GAS_CAUTION } from './assumptions.js';
import { checkedEngine, type GasEngine } from './gas-engine.js';
import { checkedRpm, optionsOf, type SimulateOptions } from './options.js';
import type { RpmResult, SweepResult } from './results.js';
import { simulate } from './simulate.js';

/** How a sweep is run. */
export interface SweepOptions {
  readonly gas?: Partial<SimulateOptions>;
  /** Threads beside this one; 0 or 1 calculates in this one. The figures are the same for every number. */
  readonly workers?: number;
  /** Told after every engine speed that is done. */
  readonly progress?: (done: number, of: number, rpm: number) => void;
}

/** What a thread is asked and answers. */
export interface SweepTask {
  readonly system: ExhaustSystem;
  readonly engine: GasEngine;
  readonly rpm: number;
  readonly gas: Partial<SimulateOptions>;
}

export type SweepAnswer =
  | { readonly ok: true; readonly result: RpmResult }
  | { readonly ok: false; readonly message: string };

/** Engine speeds from one to another, both included, evenly spaced. Throws RangeError for fewer than two or a range that does not rise. */
export function rpmRange(from: number, to: number, count: number): number[] {
  if (!(Number.isInteger(count) && count >= 2 && to > from)) {
    throw new RangeError(`engine speeds: found ${count} from ${from} to ${to}; expected two or more, rising`);
  }
  return Array.from({ length: count }, (_, i) => checkedRpm(from + ((to - from) * i) / (count - 1)));
}

/**
 * Calculates an exhaust at engine speeds, rev/min, each from the same start, so that neither their order nor the number of threads
 * matters. Rejects with RangeError for what is unphysical, with the range.
 */
export async function sweep(
  system: ExhaustSystem,
  engine: GasEngine,
  rpms: readonly number[],
  { gas = {}, workers = 0, progress = () => {} }: SweepOptions = {},
): Promise<SweepResult> {
  const speeds = [...rpms].sort((a, b) => a - b).map(checkedRpm);
  checkedEngine(engine);
  const tasks = speeds.map((rpm) => ({ system, engine, rpm, gas }));
  const assumptions = assumptionsOf(system, engine, optionsOf(gas));
  let done = 0;
  const told = (rpm: number): void => progress(++done, tasks.length, rpm);
  const points = workers > 1 && compiled ? await inThreads(tasks, workers, told) : inThisThread(tasks, told);
  const { exhaust, intake } = engine;
  return {
    system: system.name,
    assumptions,
    caution: GAS_CAUTION,
    events: {
      exhaustOpens: exhaust.opens,
      exhaustCloses: exhaust.closes,
      intakeOpens: intake.opens,
      intakeCloses: intake.closes,
    },
    points,
  };
}

/** A thread needs a compiled file: run from its sources, as tests do, everything stays in one thread. */
const compiled = import.meta.url.endsWith('.js');

function inThisThread(tasks: readonly SweepTask[], told: (rpm: number) => void): RpmResult[] {
  return tasks.map(({ system, engine, rpm, gas }) => {
    const result = simulate(system, engine, rpm, gas);
    told(rpm);
    return result;
  });
}

/** Threads that each take the next speed when they are free. */
async function inThreads(
  tasks: readonly SweepTask[],
  count: number,
  told: (rpm: number) => void,
): Promise<RpmResult[]> {
  const results: RpmResult[] = [];
  let next = 0;
  const threads = Array.from({ length: Math.min(count, tasks.length) }, () => {
    return new Worker(new URL('./sweep-worker.js', import.meta.url));
  });
  const work = async (thread: Worker): Promise<void> => {
    while (next < tasks.length) {
      const i = next++;
      const task = tasks[i]!;
      const answer = await ask(thread, task);
      if (!answer.ok) throw new RangeError(answer.message);
      results[i] = answer.result;
      told(task.rpm);
    }
  };
  try {
    await Promise.all(threads.map(work));
  } finally {
    await Promise.all(threads.map((t) => t.terminate()));
  }
  return results;
}

function ask(thread: Worker, task: SweepTask): Promise<SweepAnswer> {
  return new Promise((resolve, reject) => {
    const settled = (): void => {
      thread.off('message', answered);
      thread.off('error', failed);
      thread.off('exit', gone);
    };
    const answered = (answer: SweepAnswer): void => {
      settled();
      resolve(answer);
    };
    const failed = (error: Error): void => {
      settled();
      reject(error);
    };
    const gone = (): void => failed(new Error('a thread of the sweep ended before it answered'));
    thread.on('message', answered);
    thread.on('error', failed);
    thread.on('exit', gone);
    thread.postMessage(task);
  });
}
