import { describe, expect, it } from 'vitest';
import { radians } from '../../../src/geometry/angle.js';
import type { Engine } from '../../../src/params/plan.js';
import { ENGINE_CHOICES, gasEngineOf } from '../../../src/tuning/engine/engine-of-plan.js';
import { checkedEngine, type GasEngine } from '../../../src/tuning/engine/gas-engine.js';
import { optionsOf } from '../../../src/tuning/engine/options.js';
import { simulate } from '../../../src/tuning/engine/simulate.js';
import { ENGINE, lonePipe } from '../../support/simple-exhaust.js';

const PLAN: Engine = {
  cylinders: 4,
  layout: 'inline',
  firingOrder: [1, 3, 4, 2],
  bore: 86,
  stroke: 86,
  bankAngle: 0,
  compressionRatio: 10.5,
  cam: {
    exhaustOpensBeforeBdc: radians(60),
    exhaustClosesAfterTdc: radians(25),
    intakeOpensBeforeTdc: radians(25),
    intakeClosesAfterBdc: radians(60),
    exhaustLift: 10.5,
  },
  rpm: { power: 6800, limit: 7500 },
};

describe('an engine that cannot be', () => {
  const { exhaust, intake, closedCycle } = ENGINE;
  it.each<[string, Partial<GasEngine>, string]>([
    ['a bore in mm', { bore: 86 }, 'bore: found 86 m; expected 0.02 to 0.5 m'],
    ['a stroke of none', { stroke: 0 }, 'stroke: found 0 m'],
    ['a rod shorter than its crank', { rodRatio: 0.4 }, 'rod length over stroke: found 0.4; expected 1.1 to 4'],
    ['no compression', { compressionRatio: 1 }, 'compression ratio: found 1; expected 4 to 25'],
    [
      'an exhaust that opens on the way up',
      { exhaust: { ...exhaust, opens: 250 } },
      'exhaust valve opening: found 250 deg',
    ],
    ['an exhaust that never closes', { exhaust: { ...exhaust, closes: 600 } }, 'exhaust valve closing: found 600 deg'],
    ['an intake that opens too soon', { intake: { ...intake, opens: 100 } }, 'intake valve opening'],
    ['an intake that closes too soon', { intake: { ...intake, closes: 400 } }, 'intake valve closing'],
    ['a lift in mm', { exhaust: { ...exhaust, lift: 9.5 } }, 'exhaust valve lift: found 9.5 m'],
    ['a valve wider than the bore', { intake: { ...intake, diameter: 0.09 } }, 'intake valve diameter over bore'],
    ['a valve better than a nozzle', { exhaust: { ...exhaust, discharge: 1.2 } }, 'exhaust discharge coefficient'],
    ['an intake pressure in bar', { intakePressure: 1 }, 'intake pressure: found 1 Pa; expected 20000 to 500000 Pa'],
    ['a temperature in Celsius', { intakeTemperature: 25 }, 'intake temperature: found 25 K; expected 230 to 450 K'],
    ['cold burning', { closedCycle: { ...closedCycle, rise: 10 } }, 'temperature rise of burning'],
    ['not a number', { wallTemperature: Number.NaN }, 'temperature of the cylinder walls: found NaN K'],
    ['two that fire as one', { firing: [1, 2].map((cylinder) => ({ cylinder, at: 0 })) }, 'firing angles: 0, 0 deg'],
  ])('is refused with its range: %s', (_, change, message) => {
    expect(() => checkedEngine({ ...ENGINE, ...change })).toThrow(message);
    expect(() => simulate(lonePipe(0.8), { ...ENGINE, ...change }, 6000)).toThrow(RangeError);
  });

  it('is no worse than one at the edge of its ranges', () => {
    expect(checkedEngine({ ...ENGINE, compressionRatio: 25 }).compressionRatio).toBe(25);
  });

  it('does not turn at any speed, nor is it calculated in any cells', () => {
    expect(() => simulate(lonePipe(0.8), ENGINE, 100)).toThrow(
      'engine speed: found 100 rev/min; expected 300 to 25000',
    );
    expect(() => optionsOf({ cellLength: 15 })).toThrow('length of a cell: found 15 m; expected 0.002 to 0.1 m');
    expect(() => optionsOf({ jointLoss: -1 })).toThrow('loss coefficient of a joint');
  });
});

describe('the engine of a plan', () => {
  it('has its sizes in metres and its events after firing top dead centre', () => {
    const engine = gasEngineOf(PLAN);
    expect(engine.bore).toBeCloseTo(0.086, 12);
    expect(engine.exhaust.opens).toBeCloseTo(120, 9);
    expect(engine.exhaust.closes).toBeCloseTo(385, 9);
    expect(engine.intake.opens).toBeCloseTo(335, 9);
    expect(engine.intake.closes).toBeCloseTo(600, 9);
    expect(engine.exhaust.lift).toBeCloseTo(0.0105, 12);
    expect(engine.firing).toEqual([
      { cylinder: 1, at: 0 },
      { cylinder: 3, at: 180 },
      { cylinder: 4, at: 360 },
      { cylinder: 2, at: 540 },
    ]);
  });

  it('fires a vee of two a bank angle short of a turn apart, and says so', () => {
    const twin = { ...PLAN, cylinders: 2, layout: 'vee', firingOrder: [1, 2], bankAngle: radians(60) } as const;
    expect(gasEngineOf(twin).firing[1]!.at).toBeCloseTo(300, 9);
    expect(gasEngineOf(twin).assumptions.join()).toContain('one crankpin');
    expect(gasEngineOf(PLAN).assumptions.join()).toContain('even intervals');
  });

  it('says what it took because the plan does not', () => {
    const bare = gasEngineOf({ ...PLAN, compressionRatio: null, cam: { ...PLAN.cam!, exhaustLift: null } });
    const words = bare.assumptions.join(' ');
    expect(bare.compressionRatio).toBe(ENGINE_CHOICES.compressionRatio);
    for (const what of ['Compression ratio 10 (the plan gives none)', 'Exhaust valve lift', 'Rod length', 'Woschni']) {
      expect(words).toContain(what);
    }
    expect(gasEngineOf(PLAN).assumptions.join(' ')).not.toContain('the plan gives none');
    expect(gasEngineOf(PLAN, { rodRatio: 1.8 }).assumptions[0]).toBe('Rod length 1.8 times the stroke (given).');
  });

  it('needs a cam', () => {
    expect(() => gasEngineOf({ ...PLAN, cam: null })).toThrow('engine.cam: missing');
  });
});
