import { describe, expect, test } from 'vitest';
import { ISO_ALL, ISO_DIAMETERS } from '../../src/params/stock/iso-tubes.js';
import { PIPE_SIZES, PIPES, SAME_OD } from '../../src/params/stock/pipe-sizes.js';
import { ELBOWS, weldElbow } from '../../src/params/stock/weld-elbows.js';
import { tubeMass } from '../../src/parts/stock/estimates.js';

/**
 * ASME B36.19M and B36.10M, inches: NPS, outside diameter, walls of 5S, 10S, 40S. Seen in secondary copies of the standard.
 */
const PIPE_INCHES = [
  ['1', 1, 1.315, 0.065, 0.109, 0.133],
  ['1 1/4', 1.25, 1.66, 0.065, 0.109, 0.14],
  ['1 1/2', 1.5, 1.9, 0.065, 0.109, 0.145],
  ['2', 2, 2.375, 0.065, 0.109, 0.154],
  ['2 1/2', 2.5, 2.875, 0.083, 0.12, 0.203],
  ['3', 3, 3.5, 0.083, 0.12, 0.216],
] as const;

/** ASME B16.9, inches, from memory: centre to end of 90 degree elbows of long radius, and of 45 degree elbows. */
const ELBOW_INCHES: Readonly<Record<string, readonly [number, number]>> = {
  '1': [1.5, 0.88],
  '1 1/4': [1.88, 1],
  '1 1/2': [2.25, 1.12],
  '2': [3, 1.38],
  '2 1/2': [3.75, 1.75],
  '3': [4.5, 2],
};

describe('pipe of ASME B36.19M', () => {
  test.each(PIPE_INCHES)('NPS %s is its inches, rounded to 0.1 and 0.01 mm', (nps, _, od, ...walls) => {
    const pipe = PIPES[nps];
    expect(Math.abs(pipe.od - od * 25.4)).toBeLessThanOrEqual(SAME_OD);
    Object.values(pipe.walls).forEach((wall, i) => {
      expect(Math.abs(wall - walls[i]! * 25.4)).toBeLessThanOrEqual(0.0051);
    });
  });

  test('is never tube of ISO 1127 of nearly the same size', () => {
    expect(ISO_ALL).toContain(33.7);
    expect(ISO_ALL).toContain(42.4);
    for (const { od } of [PIPES['1'], PIPES['1 1/4']]) {
      expect(Math.min(...ISO_ALL.map((iso) => Math.abs(iso - od)))).toBeGreaterThan(SAME_OD);
    }
  });
});

describe('diameters of ISO 1127 and EN 10220 (from memory)', () => {
  test('stand in one series each', () => {
    expect(new Set(ISO_ALL).size).toBe(ISO_ALL.length);
    expect(ISO_DIAMETERS[1]).toEqual([21.3, 26.9, 33.7, 42.4, 48.3, 60.3, 76.1, 88.9]);
    expect([38, 40, 51, 63.5].every((od) => ISO_DIAMETERS[2].includes(od))).toBe(true);
    expect([35, 44.5, 54].every((od) => ISO_DIAMETERS[3].includes(od))).toBe(true);
  });
});

describe('butt-weld elbows of ASME B16.9', () => {
  test.each(PIPE_INCHES)('NPS %s has the radii of the standard', (nps, nominal) => {
    const sizes = ELBOWS[nps];
    const [a, b] = ELBOW_INCHES[nps]!;
    // the tables' own rounding is up to 0.15 mm, of O to whole mm
    expect(Math.abs(sizes.long90 - a * 25.4)).toBeLessThanOrEqual(0.15);
    expect(Math.abs(sizes.long45 - b * 25.4)).toBeLessThanOrEqual(0.15);
    expect(Math.abs(sizes.short90 - nominal * 25.4)).toBeLessThanOrEqual(0.06);
    expect(Math.abs(sizes.long180 - 2 * sizes.long90)).toBeLessThanOrEqual(0.61);
    expect(Math.abs(sizes.short180 - 2 * sizes.short90)).toBeLessThanOrEqual(0.51);
  });

  test('a 45 degree elbow is longer than its radius makes it: NPS 2 35.1 mm, not 31.56', () => {
    const elbow = weldElbow('2', 'long', 45)!;
    expect(elbow.clr * Math.tan(Math.PI / 8)).toBeCloseTo(31.56, 2);
    expect(elbow.leg + elbow.clr * Math.tan(Math.PI / 8)).toBeCloseTo(35.1, 9);
    for (const nps of PIPE_SIZES) expect(weldElbow(nps, 'long', 45)!.leg).toBeGreaterThan(3);
  });

  test('there is no 45 degree elbow of short radius, and every other', () => {
    for (const nps of PIPE_SIZES) {
      expect(weldElbow(nps, 'short', 45)).toBeNull();
      for (const radius of ['long', 'short'] as const) {
        for (const angle of [90, 180] as const) expect(weldElbow(nps, radius, angle)).toMatchObject({ angle, leg: 0 });
      }
    }
  });
});

describe('mass of tube, kg/m at 7850 kg/m3', () => {
  // 48.3 and 60.3: ASME B36.10M; 33.7 and 38: EN 10220; seen in secondary copies
  test.each([
    [48.3, 3.68, 4.05],
    [60.3, 3.91, 5.44],
    [33.7, 2.6, 1.99],
    [38, 2.6, 2.27],
  ])('%d x %d: %d', (od, wall, mass) => {
    expect(tubeMass(od, wall, 1000, 7850)).toBeCloseTo(mass, 2);
    expect(tubeMass(od, wall, 1000, 7850)).toBeCloseTo((od - wall) * wall * 0.0246615, 5);
  });
});
