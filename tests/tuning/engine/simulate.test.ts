import { describe, expect, it } from 'vitest';
import { cycleMeans } from '../../../src/tuning/engine/compare.js';
import { meanOver } from '../../../src/tuning/engine/crank-trace.js';
import { cylinderVolume } from '../../../src/tuning/engine/piston.js';
import { simulate } from '../../../src/tuning/engine/simulate.js';
import type { ExhaustSystem } from '../../../src/tuning/exhaust-system.js';
import { ENGINE, fourIntoOne, lonePipe, roundPipe } from '../../support/simple-exhaust.js';

const COARSE = { cellLength: 0.03 };
const EQUAL = fourIntoOne([0.7, 0.7, 0.7, 0.7]);
const equal = simulate(EQUAL, ENGINE, 6000, { ...COARSE, limit: 5e-4 });

describe('an engine on an exhaust', () => {
  it('comes to a periodic state that it says so of', () => {
    expect(equal.convergence.converged).toBe(true);
    expect(equal.convergence.change).toBeLessThanOrEqual(5e-4);
    const cut = simulate(EQUAL, ENGINE, 6000, { ...COARSE, limit: 1e-7, mostCycles: 2 });
    expect(cut.convergence.converged).toBe(false);
    expect(cut.convergence.cycles).toBe(2);
  });

  it('blows out what it draws in, to the change of a cycle, and loses no mass', () => {
    const out = equal.outlets.reduce((sum, o) => sum + o.mass, 0);
    const through = equal.cylinders.reduce((sum, c) => sum + c.massExhausted, 0);
    const drawn = equal.cylinders.reduce((sum, c) => sum + c.freshCharge, 0);
    expect(Math.abs(out / through - 1)).toBeLessThan(2e-3);
    expect(Math.abs(through / drawn - 1)).toBeLessThan(2e-3);
    expect(equal.convergence.massError).toBeLessThan(1e-13);
  });

  it('treats cylinders alike whose pipes are alike', () => {
    const { chargeSpread } = cycleMeans(equal);
    expect(chargeSpread).toBeLessThan(1e-3);
    const [first, ...others] = equal.cylinders;
    for (const c of others) expect(Math.abs(c.pumpingWork - first!.pumpingWork)).toBeLessThan(0.1);
  });

  it('gives the same figures to the last bit', () => {
    const once = simulate(lonePipe(0.5), ENGINE, 8000, { cellLength: 0.05, mostCycles: 3 });
    expect(simulate(lonePipe(0.5), ENGINE, 8000, { cellLength: 0.05, mostCycles: 3 })).toEqual(once);
  });

  it('has the pressure difference of its own trace over the overlap', () => {
    const { valvePressure, overlapDifference } = equal.cylinders[1]!;
    expect(overlapDifference).toBe(meanOver(valvePressure, 335, 385)! - ENGINE.intakePressure);
    const apart = { ...ENGINE, intake: { ...ENGINE.intake, opens: 390 } };
    expect(
      simulate(lonePipe(0.5), apart, 8000, { cellLength: 0.05, mostCycles: 2 }).cylinders[0]!.overlapDifference,
    ).toBe(null);
  });

  it('has the work of its own indicator diagram', () => {
    const { cylinderPressure: p, indicatedWork, pumpingWork } = equal.cylinders[0]!;
    const loop = (from: number, to: number): number => {
      let work = 0;
      for (let d = from; d < to; d++) {
        work += ((p[d % 720]! + p[(d + 1) % 720]!) / 2) * (cylinderVolume(ENGINE, d + 1) - cylinderVolume(ENGINE, d));
      }
      return work;
    };
    expect(Math.abs(loop(0, 720) / indicatedWork - 1)).toBeLessThan(0.01);
    // flow and piston take turns within a step: a twentieth of this small loop, alike for every exhaust
    expect(Math.abs(-loop(180, 540) / pumpingWork - 1)).toBeLessThan(0.05);
  });

  it('has its lowest pressure behind the valve where its trace has', () => {
    const { rarefactionAt, valvePressure, rarefactionDepth } = equal.cylinders[0]!;
    expect(valvePressure[rarefactionAt]! - meanOver(valvePressure, 0, 719)!).toBeCloseTo(rarefactionDepth, 6);
    expect(rarefactionDepth).toBeLessThan(-1e4);
    expect(rarefactionAt).toBeGreaterThan(180);
  });

  it('stays within what engines are known for', () => {
    // full load of an unsupercharged petrol engine: residuals of a few hundredths, exhaust of 1000 to 1300 K at the valve, 2 to 6 bar
    // at exhaust opening, a filling near one (common practice; J. B. Heywood, chapters 6 and 11, from memory)
    for (const c of equal.cylinders) {
      expect(c.residualFraction).toBeGreaterThan(0.01);
      expect(c.residualFraction).toBeLessThan(0.12);
      expect(c.exhaustTemperature).toBeGreaterThan(1000);
      expect(c.exhaustTemperature).toBeLessThan(1300);
      expect(c.chargingEfficiency).toBeGreaterThan(0.75);
      expect(c.chargingEfficiency).toBeLessThan(1.15);
      expect(c.cylinderPressure[119]! / 1e5).toBeGreaterThan(2);
      expect(c.cylinderPressure[119]! / 1e5).toBeLessThan(6);
    }
  });

  it('hardly changes when its cells are halved', () => {
    const fine = cycleMeans(simulate(EQUAL, ENGINE, 6000, { cellLength: 0.015, limit: 5e-4 }));
    const coarse = cycleMeans(equal);
    expect(Math.abs(fine.indicatedWork / coarse.indicatedWork - 1)).toBeLessThan(0.01);
    expect(Math.abs(fine.chargingEfficiency / coarse.chargingEfficiency - 1)).toBeLessThan(0.01);
    expect(Math.abs(fine.overlapDifference! - coarse.overlapDifference!)).toBeLessThan(3000);
  });
});

describe('what the exhaust does to the cylinders', () => {
  it('makes them unlike when the pipes are', () => {
    const uneven = simulate(fourIntoOne([0.5, 0.6, 0.8, 0.95]), ENGINE, 6000, COARSE);
    expect(cycleMeans(uneven).chargeSpread).toBeGreaterThan(10 * cycleMeans(equal).chargeSpread);
  });

  it('costs pumping work when the pipe is strangled', () => {
    const pumping = (bore: number): number =>
      simulate(lonePipe(0.6, bore), ENGINE, 6000, COARSE).cylinders[0]!.pumpingWork;
    expect(pumping(0.025)).toBeGreaterThan(1.2 * pumping(0.041));
  });

  it('cools the gas at the end less behind a double wall', () => {
    const hot = (heatShare: number): number => {
      const pipe = { ...roundPipe('cylinder 1', { cylinder: 1 }, 'end', 0.8, 0.041), heatShare };
      const at: ExhaustSystem = { ...lonePipe(0.8), pipes: [pipe], end: turbine(6e-4) };
      const { outlets } = simulate(at, ENGINE, 6000, COARSE);
      return outlets[0]!.pulseEnergy! / outlets[0]!.mass;
    };
    expect(hot(0.2)).toBeGreaterThan(hot(1));
  });
});

const turbine = (...areas: number[]): ExhaustSystem['end'] => ({ kind: 'turbine', areas, backPressure: 1.05e5 });

describe('a turbine', () => {
  const primaries = [1, 2, 3, 4].map((c) => {
    return roundPipe(`cylinder ${c}`, { cylinder: c }, { joint: c === 1 || c === 4 ? 0 : 1 }, 0.4, 0.038);
  });
  const joint = (name: string) => ({ name, volume: 2e-4 });
  const divided: ExhaustSystem = {
    name: 'divided',
    pipes: [
      ...primaries,
      roundPipe('inlet 1', { joint: 0 }, 'end', 0.06, 0.04),
      roundPipe('inlet 2', { joint: 1 }, 'end', 0.06, 0.04),
    ],
    joints: [joint('front'), joint('rear')],
    end: turbine(5e-4, 5e-4),
  };
  const open: ExhaustSystem = {
    name: 'open',
    pipes: [
      ...primaries.map((p) => ({ ...p, to: { joint: 0 } })),
      roundPipe('inlet', { joint: 0 }, 'end', 0.06, 0.04 * Math.SQRT2),
    ],
    joints: [{ name: 'collector', volume: 4e-4 }],
    end: turbine(10e-4),
  };

  it('gets more from pulses kept apart than from one common inlet, and never less than from the steady flow', () => {
    const energy = (system: ExhaustSystem) => {
      const { outlets } = simulate(system, ENGINE, 3000, COARSE);
      const sum = (of: 'pulseEnergy' | 'steadyEnergy'): number => outlets.reduce((s, o) => s + o[of]!, 0);
      return { pulse: sum('pulseEnergy'), steady: sum('steadyEnergy') };
    };
    const [apart, common] = [energy(divided), energy(open)];
    expect(apart.pulse).toBeGreaterThan(common.pulse);
    expect(apart.pulse / apart.steady).toBeGreaterThan(common.pulse / common.steady);
    expect(common.pulse).toBeGreaterThan(common.steady);
  });

  it('holds back: the pressure before it rises when its area shrinks', () => {
    const meanPressure = (area: number): number => {
      const { outlets } = simulate({ ...open, end: turbine(area) }, ENGINE, 3000, COARSE);
      return meanOver(outlets[0]!.pressure, 0, 719)!;
    };
    // 0.05 kg/s of 1100 K through 400 mm2 by Bernoulli: some 20 kPa; through 1000 mm2: 3
    expect(meanPressure(4e-4)).toBeGreaterThan(meanPressure(10e-4) + 1e4);
  });
});

describe('a joint', () => {
  it('that costs pressure makes pumping dearer', () => {
    const pumping = (jointLoss: number): number =>
      cycleMeans(simulate(EQUAL, ENGINE, 7000, { ...COARSE, jointLoss })).pumpingWork;
    expect(pumping(3)).toBeGreaterThan(pumping(0));
  });
});
