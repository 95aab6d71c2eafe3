import { describe, expect, it } from 'vitest';
import { sweptVolume } from '../../../src/tuning/engine/gas-engine.js';
import { cylinderVolume } from '../../../src/tuning/engine/piston.js';
import { effectiveArea, valveLift } from '../../../src/tuning/engine/valve.js';
import { ENGINE } from '../../support/simple-exhaust.js';

describe('the volume above the piston', () => {
  it('is the clearance at top and the compression ratio times it at bottom dead centre', () => {
    const clearance = sweptVolume(ENGINE) / (ENGINE.compressionRatio - 1);
    expect(cylinderVolume(ENGINE, 0)).toBeCloseTo(clearance, 12);
    expect(cylinderVolume(ENGINE, 180)).toBeCloseTo(ENGINE.compressionRatio * clearance, 12);
    expect(cylinderVolume(ENGINE, 540)).toBeCloseTo(cylinderVolume(ENGINE, 180), 12);
  });

  it('is the same on the way down and up, and past the middle at a quarter turn, the more the shorter the rod', () => {
    const fallen = (rodRatio: number): number => {
      const engine = { ...ENGINE, rodRatio };
      return (cylinderVolume(engine, 90) - cylinderVolume(engine, 0)) / sweptVolume(engine);
    };
    for (const angle of [10, 75, 140]) {
      expect(cylinderVolume(ENGINE, 360 - angle)).toBeCloseTo(cylinderVolume(ENGINE, angle), 12);
    }
    expect(fallen(1.5)).toBeGreaterThan(fallen(2));
    expect(fallen(1000)).toBeCloseTo(0.5, 3);
    // piston at r + l - sqrt(l^2 - r^2) of a stroke of 2 r and a rod of 3 r, by hand
    expect(fallen(1.5)).toBeCloseTo((1 + 3 - Math.sqrt(8)) / 2, 12);
  });
});

describe('a valve', () => {
  const { exhaust } = ENGINE;
  const middle = (exhaust.opens + exhaust.closes) / 2;

  it('is shut at its events, full open midway, half open a quarter of the way, alike on both sides', () => {
    expect(valveLift(exhaust, exhaust.opens)).toBe(0);
    expect(valveLift(exhaust, exhaust.opens - 5)).toBe(0);
    expect(valveLift(exhaust, exhaust.closes + 5)).toBe(0);
    expect(valveLift(exhaust, middle)).toBeCloseTo(exhaust.lift, 12);
    expect(valveLift(exhaust, (exhaust.opens + middle) / 2)).toBeCloseTo(exhaust.lift / 2, 12);
    for (const d of [15, 60, 100]) {
      expect(valveLift(exhaust, middle - d)).toBeCloseTo(valveLift(exhaust, middle + d), 12);
    }
  });

  it('starts and ends without a jump of speed or acceleration', () => {
    const h = 0.01;
    const at = (k: number): number => valveLift(exhaust, exhaust.opens + k * h);
    const scale = exhaust.lift / (middle - exhaust.opens);
    expect((at(1) - at(-1)) / (2 * h) / scale).toBeLessThan(1e-5);
    expect(((at(1) - 2 * at(0) + at(-1)) / h ** 2 / scale) * 100).toBeLessThan(0.1);
  });

  it('has the mean lift of a 3-4-5 polynomial: half of the largest', () => {
    const span = exhaust.closes - exhaust.opens;
    const sum = Array.from({ length: 1000 }, (_, i) => valveLift(exhaust, exhaust.opens + ((i + 0.5) * span) / 1000));
    expect(sum.reduce((a, b) => a + b, 0) / 1000 / exhaust.lift).toBeCloseTo(0.5, 6);
  });

  it('passes through the curtain at little lift and no more than the throat at much', () => {
    const { count, diameter, discharge } = exhaust;
    const lift = valveLift(exhaust, exhaust.opens + 30);
    expect(effectiveArea(exhaust, exhaust.opens + 30)).toBeCloseTo(count * discharge * Math.PI * diameter * lift, 12);
    const high = { ...exhaust, lift: 0.02 };
    expect(effectiveArea(high, middle)).toBeCloseTo(count * discharge * 0.8 * (Math.PI / 4) * diameter ** 2, 12);
  });
});
