import { parentPort } from 'node:worker_threads';
import { simulate } from './simulate.js';
import type { SweepAnswer, SweepTask } from './sweep.js';

/** A thread of a sweep: one engine speed after the other, as asked. */
parentPort?.on('message', ({ system, engine, rpm, gas }: SweepTask) => {
  parentPort?.postMessage(answerTo(system, engine, rpm, gas));
});

function answerTo(...task: Parameters<typeof simulate>): SweepAnswer {
  try {
    return { ok: true, result: simulate(...task) };
  } catch (e) {
    return { ok: false, message: e instanceof Error ? e.message : String(e) };
  }
}
