import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  circleArea,
  coneSkin,
  conesOf,
  coneVolume,
  diameterAt,
  diameterOf,
} from '../../../src/parts/gas-path/gas-way.js';

const station = (at: number, diameter: number) => ({ at, area: circleArea(diameter), what: '' });

describe('a way of the gas', () => {
  test('a cone has the volume of a frustum and a tube that of a cylinder', () => {
    const [cone] = conesOf([station(0, 40), station(100, 60)]);
    // pi h / 3 (r1^2 + r1 r2 + r2^2)
    expect(coneVolume(cone!)).toBeCloseTo(((Math.PI * 100) / 3) * (400 + 600 + 900), 6);
    expect(coneVolume({ length: 100, from: 40, to: 40 })).toBeCloseTo(Math.PI * 400 * 100, 6);
  });

  test('its skin is that of a frustum', () => {
    // pi (r1 + r2) slant: radii 20 and 30, height 100
    expect(coneSkin({ length: 100, from: 40, to: 60 }, 0)).toBeCloseTo(Math.PI * 50 * Math.hypot(100, 10), 6);
    expect(coneSkin({ length: 100, from: 40, to: 40 }, 2)).toBeCloseTo(Math.PI * 44 * 100, 6);
  });

  test('parts of a way hold what the whole holds', () => {
    const all = [station(0, 30), station(50, 40), station(50, 44), station(200, 60)];
    const volume = (from?: number, to?: number) => conesOf(all, from, to).reduce((s, c) => s + coneVolume(c), 0);
    fc.assert(
      fc.property(fc.double({ min: 1, max: 199, noNaN: true }), (cut) => {
        expect(volume(0, cut) + volume(cut)).toBeCloseTo(volume(), 3);
      }),
    );
  });

  test('diameters run straight between stations; behind a step the larger one holds', () => {
    const all = [station(0, 30), station(50, 40), station(50, 44), station(100, 44)];
    expect(diameterAt(all, 25)).toBeCloseTo(35, 9);
    expect(diameterAt(all, 50)).toBeCloseTo(44, 9);
    expect(diameterAt(all, 100)).toBeCloseTo(44, 9);
    expect(diameterOf(circleArea(37))).toBeCloseTo(37, 12);
  });
});
