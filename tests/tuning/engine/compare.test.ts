import { describe, expect, it } from 'vitest';
import { compareSweeps, crossings, cycleMeans } from '../../../src/tuning/engine/compare.js';
import type { CylinderResult, RpmResult, SweepResult } from '../../../src/tuning/engine/results.js';
import { changesOf, sensitivityOf } from '../../../src/tuning/engine/sensitivity.js';
import { tunedSpeeds } from '../../../src/tuning/engine/tuned-speed.js';
import {
  hasSteps,
  primaryLength,
  withCollectorLength,
  withJointVolume,
  withoutSteps,
  withPrimaryBore,
  withPrimaryLength,
  withStep,
} from '../../../src/tuning/engine/variants.js';
import { ENGINE, fourIntoOne, lonePipe } from '../../support/simple-exhaust.js';

const cylinder = (number: number, of: Partial<CylinderResult>): CylinderResult => ({
  cylinder: number,
  valvePressure: new Float64Array(720),
  cylinderPressure: new Float64Array(720),
  overlapDifference: 0,
  pumpingWork: 10,
  indicatedWork: 500,
  rarefactionAt: 350,
  rarefactionDepth: -1e4,
  massExhausted: 5e-4,
  freshCharge: 5e-4,
  chargingEfficiency: 0.9,
  residualFraction: 0.05,
  exhaustTemperature: 1100,
  ...of,
});

const CONVERGED = { converged: true, cycles: 5, change: 1e-3, limit: 3e-3, cells: 9, steps: 9, massError: 0 };

const point = (rpm: number, ...cylinders: Partial<CylinderResult>[]): RpmResult => ({
  rpm,
  cylinders: cylinders.map((c, i) => cylinder(i + 1, c)),
  outlets: [],
  convergence: CONVERGED,
});

const swept = (system: string, ...points: RpmResult[]): SweepResult => ({
  system,
  assumptions: [],
  caution: '',
  events: { exhaustOpens: 120, exhaustCloses: 380, intakeOpens: 340, intakeCloses: 600 },
  points,
});

describe('two exhausts side by side', () => {
  const work = (...values: number[]) => values.map((indicatedWork, i) => point(2000 + 1000 * i, { indicatedWork }));

  it('says which does more, where, and where they balance', () => {
    const c = compareSweeps(swept('manifold', ...work(500, 500, 500)), swept('header', ...work(480, 500, 550)));
    expect([c.first, c.second]).toEqual(['manifold', 'header']);
    expect(c.speeds.map((s) => s.work)).toEqual([480 / 500 - 1, 0, expect.closeTo(0.1, 12)]);
    expect(c.meanWork).toBeCloseTo(0.02, 12);
    expect([c.worst.rpm, c.best.rpm]).toEqual([2000, 4000]);
    expect(c.balances).toEqual([3000]);
  });

  it('turns its signs when they change places', () => {
    const [a, b] = [swept('a', ...work(500, 510)), swept('b', ...work(520, 505))];
    const [to, back] = [compareSweeps(a, b), compareSweeps(b, a)];
    expect(Math.sign(to.speeds[0]!.work)).toBe(-Math.sign(back.speeds[0]!.work));
    expect(to.balances[0]).toBeGreaterThan(2000);
    expect(to.balances[0]).toBeLessThan(3000);
  });

  it('has the spread between cylinders, and no overlap where one has none', () => {
    const means = cycleMeans(point(3000, { freshCharge: 4e-4 }, { freshCharge: 6e-4, overlapDifference: null }));
    expect(means.chargeSpread).toBeCloseTo(0.4, 12);
    expect(means.overlapDifference).toBe(null);
  });

  it('does not compare speeds with others', () => {
    expect(() => compareSweeps(swept('a', ...work(1, 2)), swept('b', ...work(1)))).toThrow('expected the same');
  });

  it('finds where a row passes a level, once each', () => {
    expect(crossings([0, 1, 2, 3], [-1, 1, 1, -1], 0)).toEqual([
      { at: 0.5, rising: true },
      { at: 2.5, rising: false },
    ]);
    expect(crossings([0, 1, 2], [-1, 0, 1], 0)).toEqual([{ at: 1, rising: true }]);
    expect(crossings([0, 1], [2, 3], 0)).toEqual([]);
  });
});

describe('tuned speeds', () => {
  it('are where the rarefaction passes the middle of the overlap, and where the exhaust draws', () => {
    const at = (rpm: number, rarefactionAt: number, overlapDifference: number): RpmResult =>
      point(rpm, { rarefactionAt, overlapDifference });
    const tuned = tunedSpeeds(
      swept('a', at(4000, 340, 2000), at(5000, 350, -2000), at(6000, 370, -4000), at(7000, 300, 4000)),
    )!;
    expect(tuned.rarefactionInOverlap).toEqual([5500]);
    expect(tuned.strongestDraw).toEqual({ rpm: 6000, difference: -4000 });
    expect(tuned.draws).toEqual([{ from: 4500, to: 6500 }]);
  });

  it('are none without overlap', () => {
    const apart = { ...swept('a', point(4000, {})), events: { ...swept('a').events, intakeOpens: 385 } };
    expect(tunedSpeeds(apart)).toBe(null);
    expect(() => tunedSpeeds(swept('a'))).toThrow('without engine speeds');
  });
});

describe('variants of an exhaust', () => {
  const four = fourIntoOne([0.6, 0.7, 0.8, 0.9]);
  const volume = (s: typeof four): number => s.pipes[0]!.stations.reduce((sum, { area }) => sum + area, 0);

  it('change what they say and nothing else', () => {
    expect(primaryLength(four)).toBeCloseTo(0.75, 12);
    const equal = withPrimaryLength(four, 0.7);
    expect(equal.pipes.slice(0, 4).map((p) => p.length)).toEqual([0.7, 0.7, 0.7, 0.7]);
    for (const p of equal.pipes.slice(0, 4)) expect(p.stations.at(-1)!.at).toBeCloseTo(0.7, 12);
    expect(equal.pipes[4]).toEqual(four.pipes[4]);
    expect(volume(withPrimaryBore(four, 1.1)) / volume(four)).toBeCloseTo(1.21, 12);
    expect(withCollectorLength(four, 1.5).pipes.map((p) => p.length)).toEqual([
      0.6,
      0.7,
      0.8,
      0.9,
      expect.closeTo(0.9, 12),
    ]);
    expect(withJointVolume(four, 2).joints[0]!.volume).toBeCloseTo(1.2e-3, 12);
  });

  it('put a step in and take it out again', () => {
    const stepped = withStep(four, 0.5, 1.08);
    expect([hasSteps(four), hasSteps(stepped), hasSteps(withoutSteps(stepped))]).toEqual([false, true, false]);
    const area = four.pipes[0]!.stations[0]!.area;
    expect(stepped.pipes[0]!.stations.at(-1)!.area / area).toBeCloseTo(1.08 ** 2, 12);
    expect(withoutSteps(stepped).pipes[0]!.stations.at(-1)!.area / area).toBeCloseTo(1, 12);
    expect(changesOf(four).some((c) => c.change.startsWith('primaries with a step'))).toBe(true);
    expect(changesOf(stepped).some((c) => c.change === 'primaries without their steps')).toBe(true);
  });

  it('are each compared with the exhaust as it is', async () => {
    const found = await sensitivityOf(lonePipe(0.6), ENGINE, [9000], { gas: { cellLength: 0.06, mostCycles: 4 } });
    expect(found.map((f) => f.change)).toEqual(changesOf(lonePipe(0.6)).map((c) => c.change));
    const of = (change: string): number => found.find((f) => f.change === change)!.comparison.meanWork;
    expect(Math.abs(of('primaries 5 % longer'))).toBeGreaterThan(1e-5);
    // a lone pipe has nothing after it and no joint
    expect(of('everything after the primaries a quarter longer')).toBe(0);
    expect(of('joints of double volume')).toBe(0);
  });
});
