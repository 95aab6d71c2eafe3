import { describe, expect, it } from 'vitest';
import { simulate } from '../../../src/tuning/engine/simulate.js';
import { rpmRange, sweep } from '../../../src/tuning/engine/sweep.js';
import { ENGINE, fourIntoOne, lonePipe } from '../../support/simple-exhaust.js';

const GAS = { cellLength: 0.05, mostCycles: 3 };

describe('a sweep of engine speeds', () => {
  it('is every speed on its own, lowest first, whatever their order and the number of threads', async () => {
    const told: number[][] = [];
    const progress = (...p: number[]): void => {
      told.push(p);
    };
    const swept = await sweep(lonePipe(0.6), ENGINE, [9000, 7000], { gas: GAS, workers: 4, progress });
    expect(swept.points.map((p) => p.rpm)).toEqual([7000, 9000]);
    expect(swept.points[1]).toEqual(simulate(lonePipe(0.6), ENGINE, 9000, GAS));
    expect(told).toEqual([
      [1, 2, 7000],
      [2, 2, 9000],
    ]);
  });

  it('carries what it assumed and who decides', async () => {
    const small = { ...fourIntoOne([0.6, 0.6, 0.6, 0.6]), joints: [{ name: 'collector', volume: 0 }] };
    const engine = { ...ENGINE, assumptions: ['Rod length 1.65 times the stroke (assumed).'] };
    const { caution, assumptions, events, system } = await sweep(small, engine, [], { gas: { ...GAS, jointLoss: 1 } });
    expect(system).toBe('four into one');
    expect(caution).toContain('One-dimensional estimate for choosing the first prototypes');
    expect(caution).toContain('The dyno and the engine builder decide');
    const words = assumptions.join(' ');
    for (const what of [
      'Rod length',
      'Haaland',
      'a loss of 1 dynamic pressures',
      'lengthened by 0.61',
      'Cells of about 50 mm',
    ]) {
      expect(words).toContain(what);
    }
    expect(words).toContain('collector: calculated with');
    expect(events).toEqual({ exhaustOpens: 120, exhaustCloses: 385, intakeOpens: 335, intakeCloses: 600 });
  });

  it('is refused where one speed would be', async () => {
    await expect(sweep(lonePipe(0.6), ENGINE, [6000, 60000])).rejects.toThrow('engine speed: found 60000');
    await expect(sweep(lonePipe(0.6), { ...ENGINE, bore: 1 }, [6000])).rejects.toThrow('bore: found 1 m');
    expect(rpmRange(2000, 8000, 4)).toEqual([2000, 4000, 6000, 8000]);
    expect(() => rpmRange(8000, 2000, 4)).toThrow('expected two or more, rising');
  });
});
