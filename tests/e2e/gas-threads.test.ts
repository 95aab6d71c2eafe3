import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { simulate } from '../../src/tuning/engine/simulate.js';
import type { sweep as Sweep } from '../../src/tuning/engine/sweep.js';
import { ENGINE, fourIntoOne } from '../support/simple-exhaust.js';

// threads need compiled files: this runs what stands in dist/
const compiled = fileURLToPath(new URL('../../dist/tuning/engine/sweep.js', import.meta.url));
const { sweep } = (await import(compiled)) as { sweep: typeof Sweep };

const FOUR = fourIntoOne([0.6, 0.65, 0.7, 0.75]);
const GAS = { cellLength: 0.06, mostCycles: 4 };
const SPEEDS = [4000, 5500, 7000, 8500];

describe('a sweep in threads', () => {
  it('gives to the last bit what one thread gives, whatever the number of threads', async () => {
    const one = await sweep(FOUR, ENGINE, SPEEDS, { gas: GAS });
    for (const workers of [2, 3, 8]) {
      const told: number[] = [];
      const progress = (done: number): void => {
        told.push(done);
      };
      expect(await sweep(FOUR, ENGINE, SPEEDS, { gas: GAS, workers, progress })).toEqual(one);
      expect(told).toEqual([1, 2, 3, 4]);
    }
    expect(one.points[2]).toEqual(simulate(FOUR, ENGINE, 7000, GAS));
  });

  it('ends with the fault of the speed that fails', async () => {
    const silly = { ...FOUR, pipes: FOUR.pipes.map((p) => (p.name === 'tail' ? { ...p, to: { joint: 0 } } : p)) };
    await expect(sweep(silly, ENGINE, SPEEDS, { gas: GAS, workers: 2 })).rejects.toThrow('no pipe leads to the end');
    const mute = { ...ENGINE, firing: ENGINE.firing.slice(1) };
    await expect(sweep(FOUR, mute, SPEEDS, { gas: GAS, workers: 2 })).rejects.toThrow(
      'cylinder 1 has a pipe but never fires',
    );
  });
});
