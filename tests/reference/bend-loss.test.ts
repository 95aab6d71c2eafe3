import { describe, expect, test } from 'vitest';
import { craneFriction, craneLoss } from '../../src/parts/gas-path/bend-crane.js';
import { idelchikLoss } from '../../src/parts/gas-path/bend-idelchik.js';
import { BEND_SCATTER, bendLoss, middleLoss } from '../../src/parts/gas-path/bend-loss.js';
import { rennelsLoss } from '../../src/parts/gas-path/bend-rennels.js';

const quarter = Math.PI / 2;

describe('Crane TP-410, p. A-29', () => {
  // the rows of the page as a secondary copy has them; above 6 from memory
  test.each([
    [1, 20],
    [1.5, 14],
    [2, 12],
    [3, 12],
    [4, 14],
    [6, 17],
  ])('r/d %d: 90 deg loses %d friction factors', (radius, k) => {
    expect(craneLoss(50, radius, quarter) / craneFriction(50)).toBeCloseTo(k, 9);
  });

  test('180 deg at 1.5 d loses 22.18 (computed apart by the formula of the page)', () => {
    expect(craneLoss(50, 1.5, Math.PI) / craneFriction(50)).toBeCloseTo(22.18, 2);
  });

  // NPS 1 to 3 schedule 40; the figures by another implementation (the `fluids` library), bores of ASME B36.10M
  test.each([
    [26.64, 0.0223],
    [35.08, 0.0208],
    [40.94, 0.02],
    [52.48, 0.0188],
    [62.68, 0.0181],
    [77.92, 0.0172],
  ])('friction factor of a bore of %d mm: %d within 1.5 %%', (bore, f) => {
    expect(Math.abs(craneFriction(bore) / f - 1)).toBeLessThan(0.015);
  });
});

describe('Rennels, computed by another implementation (the `fluids` library)', () => {
  // smooth pipe at Re 1e5: the factor of its Colebrook solution
  const friction = 0.01799;
  test.each([
    [quarter, 0.225316],
    [quarter / 2, 0.155242],
  ])('r/d 1.5, %d rad: %d', (angle, k) => {
    expect(rennelsLoss(1.5, angle, friction)).toBeCloseTo(k, 4);
  });
});

describe('Idelchik', () => {
  test('90 deg at 1.5 d: a local 0.171 (the handbook by a secondary page, 1.0 at 90 deg from memory)', () => {
    expect(idelchikLoss(1.5, quarter, 0)).toBeCloseTo(0.171, 3);
  });
  test('friction along the arc is added', () => {
    expect(idelchikLoss(1.5, quarter, 0.02) - idelchikLoss(1.5, quarter, 0)).toBeCloseTo(0.02 * 1.5 * quarter, 12);
  });
});

describe('the three together', () => {
  // Silvestre 1979 by a secondary page: bend sources scatter, so the order of magnitude is all there is to test
  test.each([
    [1, 0.48],
    [1.5, 0.36],
    [2, 0.27],
    [4, 0.21],
  ])('at r/d %d stand in the order of the %d of Silvestre: within a factor of two and a half', (radius, k) => {
    const { crane, idelchik, rennels } = bendLoss({ bore: 40, clr: 40 * radius, angle: quarter, roughness: 0.046 });
    for (const loss of [crane, idelchik, rennels]) {
      expect(loss).toBeGreaterThan(k / 2.5);
      expect(loss).toBeLessThan(k * 2.5);
    }
  });

  test('scatter as stated about their middle for common bends', () => {
    for (const radius of [1.25, 1.5, 2, 3]) {
      const loss = bendLoss({ bore: 40, clr: 40 * radius, angle: quarter, roughness: 0.046 });
      const middle = middleLoss(loss);
      for (const k of [loss.crane, loss.idelchik, loss.rennels]) {
        expect(Math.abs(k / middle - 1)).toBeLessThan(BEND_SCATTER);
      }
    }
  });

  test('grow with the angle without a jump, from nothing', () => {
    for (const book of ['crane', 'idelchik', 'rennels'] as const) {
      let before = 0;
      for (let d = 1; d <= 180; d++) {
        const k = bendLoss({ bore: 40, clr: 60, angle: (d * Math.PI) / 180, roughness: 0.046 })[book];
        expect(k, `${book} at ${d} deg`).toBeGreaterThan(before);
        expect(k - before, `${book} at ${d} deg`).toBeLessThan(0.02);
        before = k;
      }
    }
  });
});
