import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import type { StockItem } from '../../../src/parts/stock/bill.js';
import { stepOf } from '../../../src/parts/stock/master.js';
import { nest } from '../../../src/parts/stock/nest.js';
import { loadsOf, type PieceClass, type PieceShape } from '../../../src/parts/stock/pattern.js';
import { loadSolver, type Solver } from '../../../src/parts/stock/solver.js';
import { leastStock } from '../../support/least-stock.js';

let solver: Solver;
beforeAll(async () => {
  solver = await loadSolver();
});

const BARE = { od: 42.4, wall: 1.6, material: '304 stainless', price: null, available: null };
const stick = (length: number, available: number | null = null): StockItem => ({
  ...BARE,
  name: `stick ${length}`,
  kind: 'stick',
  length,
  bend: null,
  available,
});
const bend = (clr: number, angle: number, leg: number, shortLeg = leg): StockItem => ({
  ...BARE,
  name: `bend ${clr}`,
  kind: 'bend',
  length: leg + clr * angle + shortLeg,
  bend: { clr, angle, leg, shortLeg },
});

const straights = (lengths: readonly (readonly [length: number, demand: number])[]): PieceClass[] =>
  lengths.map(([long, demand]) => ({ shape: { bend: null, long, short: 0 }, demand }));

const NO_SAW = { kerf: 0, grip: 0 };

describe('published instances of the cutting-stock problem', () => {
  test('13 widths from rolls of 5600: 73 rolls (a common textbook example, from memory; 72.7 by length)', () => {
    const widths = [1380, 1520, 1560, 1710, 1820, 1880, 1930, 2000, 2050, 2100, 2140, 2150, 2200];
    const demands = [22, 25, 12, 14, 18, 18, 20, 10, 12, 14, 16, 18, 20];
    const classes = straights(widths.map((w, i) => [w, demands[i]!] as const));
    const best = nest({ items: [stick(5600)], costs: [1], classes, saw: NO_SAW }, solver);
    expect(best).toMatchObject({ value: 73, bound: 73, optimal: true });
    expect(best.firstFit).toBeGreaterThanOrEqual(73);
  });

  test('an instance whose linear bound is not met: 2 x 44, 3 x 33, 6 x 12 from 132 (Fieldhouse 1990, from memory)', () => {
    // 2/3 + 3/4 + 6/11 = 1.96 sticks by the linear model; two sticks leave 5 of 264 and do not do
    const classes = straights([
      [44, 2],
      [33, 3],
      [12, 6],
    ]);
    const shapes = classes.flatMap((c) => Array.from({ length: c.demand }, () => c.shape));
    expect(leastStock(shapes, [stick(132)], [1], NO_SAW)).toBe(3);
    const best = nest({ items: [stick(132)], costs: [1], classes, saw: NO_SAW }, solver);
    expect(best).toMatchObject({ value: 3, bound: 3, optimal: true });
  });
});

/** A random piece that some item makes, or null. */
const shapeOf = fc.oneof(
  fc.integer({ min: 15, max: 260 }).map((long): PieceShape => ({ bend: null, long, short: 0 })),
  fc
    .record({ angle: fc.integer({ min: 10, max: 170 }), leg: fc.integer({ min: 0, max: 60 }), wide: fc.boolean() })
    .map(({ angle, leg, wide }): PieceShape => {
      const long = leg < 20 ? 0 : leg;
      return { bend: { clr: wide ? 63.5 : 45, angle: (angle * Math.PI) / 180 }, long, short: 0 };
    }),
  fc.record({ long: fc.integer({ min: 20, max: 60 }), short: fc.integer({ min: 5, max: 30 }) }).map(
    ({ long, short }): PieceShape => ({
      bend: { clr: 63.5, angle: Math.PI },
      long: Math.max(long, short),
      short: Math.min(long, short),
    }),
  ),
);

const ITEMS = [bend(63.5, Math.PI, 60, 40), bend(45, Math.PI / 2, 50), stick(400), stick(700)];
const SAW = { kerf: 2, grip: 25 };

const made = (shapes: readonly PieceShape[], items: readonly StockItem[]): PieceShape[] =>
  shapes.filter((s) => items.some((i) => loadsOf(s, i, SAW).length > 0));

const classesOf = (shapes: readonly PieceShape[]): PieceClass[] => shapes.map((shape) => ({ shape, demand: 1 }));

describe('the least stock', () => {
  test('is what trying every way finds, by count', () => {
    fc.assert(
      fc.property(fc.array(shapeOf, { minLength: 1, maxLength: 8 }), (random) => {
        const shapes = made(random, ITEMS);
        if (shapes.length === 0) return;
        const costs = ITEMS.map(() => 1);
        const best = nest({ items: ITEMS, costs, classes: classesOf(shapes), saw: SAW }, solver);
        expect(best.value).toBe(leastStock(shapes, ITEMS, costs, SAW));
        expect(best).toMatchObject({ bound: best.value, optimal: true });
      }),
      { numRuns: 60 },
    );
  });

  test('is what trying every way finds, by price', () => {
    fc.assert(
      fc.property(
        fc.array(shapeOf, { minLength: 1, maxLength: 8 }),
        fc.array(fc.integer({ min: 0, max: 3000 }), { minLength: 4, maxLength: 4 }),
        (random, cents) => {
          const shapes = made(random, ITEMS);
          if (shapes.length === 0) return;
          const costs = cents.map((c) => c / 100);
          const best = nest({ items: ITEMS, costs, classes: classesOf(shapes), saw: SAW }, solver);
          expect(best.value).toBeCloseTo(leastStock(shapes, ITEMS, costs, SAW), 6);
          expect(best.optimal).toBe(true);
        },
      ),
      { numRuns: 60 },
    );
  });

  test('lies between its bound and first-fit, whatever the pieces', () => {
    fc.assert(
      fc.property(fc.array(shapeOf, { minLength: 9, maxLength: 30 }), (random) => {
        const shapes = made(random, ITEMS);
        const best = nest({ items: ITEMS, costs: ITEMS.map(() => 1), classes: classesOf(shapes), saw: SAW }, solver);
        expect(best.bound).toBeLessThanOrEqual(best.value);
        expect(best.value).toBeLessThanOrEqual(best.firstFit!);
        expect(best.optimal).toBe(best.bound === best.value);
        const cut = best.patterns.flatMap((p) => p.cuts.map((c) => c.piece)).sort((a, b) => a - b);
        expect(cut).toEqual(shapes.map((_, i) => i));
      }),
      { numRuns: 25 },
    );
  });

  test('of several that count the same takes the shorter stock', () => {
    const best = nest(
      { items: [stick(6000), stick(2000)], costs: [1, 1], classes: straights([[300, 4]]), saw: SAW },
      solver,
    );
    expect(best.patterns.map((p) => p.item)).toEqual([1]);
  });

  test('keeps to what there is and leaves the fewest pieces unmade', () => {
    const items = [stick(400, 1), stick(700, 1)];
    const classes = straights([
      [350, 2],
      [300, 2],
      [60, 1],
    ]);
    const best = nest({ items, costs: [1, 1], classes, saw: SAW }, solver);
    // 300 + 300 + 60 + 3 kerfs of 675 mm that the long stick gives; 350 of the 375 of the short one
    expect(best.short.reduce((a, b) => a + b, 0)).toBe(1);
    expect(best).toMatchObject({ value: 2, bound: 2, optimal: true });
  });

  test('is the same the second time', () => {
    const classes = straights(Array.from({ length: 24 }, (_, i) => [40 + ((i * 7919) % 331), 1] as const));
    const problem = { items: ITEMS, costs: ITEMS.map(() => 1), classes, saw: SAW };
    expect(nest(problem, solver)).toEqual(nest(problem, solver));
  });

  test('bounds prices by the amount of which all are multiples', () => {
    expect([stepOf([12, 8]), stepOf([1.5, 1]), stepOf([0.1, 0.25]), stepOf([1 / 3]), stepOf([0])]).toEqual([
      4, 0.5, 0.05, 0, 0,
    ]);
  });
});
