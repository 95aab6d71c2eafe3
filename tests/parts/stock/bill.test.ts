import fc from 'fast-check';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Plan, StockPlan } from '../../../src/params/plan.js';
import { STARTERS } from '../../../src/params/text/starter.js';
import { collectorGeometry } from '../../../src/parts/collector/merge-geometry.js';
import { mergeWelds } from '../../../src/parts/collector/merge-seams.js';
import type { StockBill, StockUse } from '../../../src/parts/stock/bill.js';
import { stockBillOf } from '../../../src/parts/stock/bill-of.js';
import type { CutPiece } from '../../../src/parts/tube/cut-list.js';
import { cutsOf } from '../../../src/parts/tube/tube-cuts.js';
import { BASE, planFrom } from '../../params/base-plan.js';
import { billFaults } from '../../support/bill-faults.js';
import { routedStarter } from '../../support/starter.js';
import { bendPiece, straightPiece, TUBE } from '../../support/stock-pieces.js';

const BASE_PLAN = planFrom(BASE);

function planOf(tube: Partial<Plan['tube']>, stock: Partial<StockPlan> = {}): Plan {
  return { ...BASE_PLAN, tube: { ...BASE_PLAN.tube, ...TUBE, ...tube }, stock: { ...BASE_PLAN.stock, ...stock } };
}

const U_BEND = { clr: 63.5, maxAngle: Math.PI, leg: 60, shortLeg: 60 };
const QUARTER = Math.PI / 2;
const wasted = (use: StockUse): number => use.item.length - use.cuts.reduce((sum, c) => sum + c.to - c.from, 0);

describe('a bill', () => {
  const plan = planOf({ bends: [U_BEND], sticks: [{ length: 500 }] });

  test('cuts two legged bends from the ends of a U-bend, a kerf apart at the inside, and straights from its legs', async () => {
    // 2 mm at the inside, 63.5 - 21.2 mm, are 2.709 degrees
    const lost = 2 / (63.5 - 21.2);
    const pieces = [
      bendPiece('1A', 63.5, QUARTER - lost / 2, 60),
      bendPiece('1B', 63.5, QUARTER - lost / 2, 0, 30),
      straightPiece('1C', 28),
    ];
    const bill = await stockBillOf(plan, pieces);
    expect(billFaults(bill, pieces, plan.stock)).toEqual([]);
    expect(bill).toMatchObject({ value: 1, bound: 1, optimal: true, firstFit: 1, unmade: [] });
    const cuts = new Map(bill.uses[0]!.cuts.map((c) => [c.piece, c]));
    const [one, two, three] = ['1A', '1B', '1C'].map((name) => cuts.get(name)!);
    const [first, last] = one!.from < two!.from ? [one!, two!] : [two!, one!];
    expect((last.from - first.to) / 63.5).toBeCloseTo(lost, 9);
    expect(three!.to - three!.from).toBeCloseTo(28, 9);
    // a hair more than the U-bend has
    const wide = [bendPiece('1A', 63.5, QUARTER - lost / 2 + 1e-6, 60), pieces[1]!, pieces[2]!];
    expect((await stockBillOf(plan, wide)).uses).toHaveLength(2);
  });

  test('turns a piece round where its leg is behind it', async () => {
    const piece = bendPiece('1A', 63.5, 1, 0, 60);
    const jBend = { ...U_BEND, shortLeg: 0 };
    const bill = await stockBillOf(planOf({ bends: [jBend] }), [piece]);
    expect(bill.uses[0]!.cuts).toEqual([{ piece: '1A', from: 0, to: 60 + 63.5, reversed: true }]);
  });

  test('gives a whole bend both its legs and only that', async () => {
    const whole = bendPiece('1A', 63.5, Math.PI, 40, 60);
    const part = bendPiece('1B', 63.5, 2, 40, 60);
    const bill = await stockBillOf(plan, [whole, part]);
    expect(billFaults(bill, [whole, part], plan.stock)).toEqual([]);
    expect(bill.uses).toHaveLength(1);
    expect(bill.unmade).toEqual([
      { piece: '1B', why: 'it keeps both legs: only a whole bend has two that long, a cut one keeps one' },
    ]);
  });

  test('says why no stock makes a piece', async () => {
    const pieces = [
      straightPiece('1A', 480),
      bendPiece('1B', 50, 1),
      bendPiece('1C', 63.5, 1, 61),
      bendPiece('1D', 63.5, 3.2),
    ];
    const { unmade, uses } = await stockBillOf(plan, pieces);
    expect(uses).toEqual([]);
    expect(unmade.map((u) => u.why)).toEqual([
      'its 480.0 mm are longer than the 473.0 mm that the longest stick of 500.0 mm gives',
      'no bend has a CLR of 50.0 mm',
      'its leg of 61.0 mm is longer than the 60.0 mm of the stock',
      'its 183.3 deg are more than the 180.0 deg of the largest bend',
    ]);
  });

  test('keeps offcuts that are long enough', async () => {
    const bill = await stockBillOf(plan, [straightPiece('1A', 200)]);
    // 200 mm of the stick of 500, and a kerf of 2
    expect(bill.uses[0]!.offcuts).toEqual([{ from: 202, to: 500, kept: true }]);
    expect(bill.uses[0]).toMatchObject({ offcut: 298, waste: 300 });
    const short = await stockBillOf(planOf({ sticks: [{ length: 500 }] }, { leastOffcut: 299 }), [
      straightPiece('1A', 200),
    ]);
    expect(short.uses[0]!.offcuts[0]!.kept).toBe(false);
  });

  test('takes no more than there is and names what is left over', async () => {
    const scarce = planOf({ bends: [{ ...U_BEND, available: 1 }], sticks: [{ length: 500, available: 1 }] });
    const pieces = [1, 2, 3]
      .map((i) => bendPiece(`1${i}`, 63.5, 2.5))
      .concat(straightPiece('1S', 300), straightPiece('1T', 300));
    const bill = await stockBillOf(scarce, pieces);
    expect(billFaults(bill, pieces, scarce.stock)).toEqual([]);
    expect(bill.uses).toHaveLength(2);
    expect(bill.unmade.map((u) => u.piece)).toHaveLength(3);
    expect(bill.unmade[0]!.why).toBe('there is not enough of the stock that makes it');
    expect(bill.optimal).toBe(true);
  });

  test('is the cheapest where prices are made least, with its sum and currency', async () => {
    // three 600 mm pieces: one stick of 2000 for 30, or three of 650 for 9 each
    const sticks = [
      { length: 2000, price: 30 },
      { length: 650, price: 9 },
    ];
    const pieces = ['1A', '1B', '1C'].map((name) => straightPiece(name, 600));
    const tube = { bends: [{ ...U_BEND, price: 20 }], sticks };
    const cheap = await stockBillOf(planOf(tube, { minimise: 'price', currency: 'EUR' }), pieces);
    expect(cheap).toMatchObject({
      minimised: 'price',
      value: 27,
      bound: 27,
      optimal: true,
      price: 27,
      currency: 'EUR',
    });
    const few = await stockBillOf(planOf(tube, { minimise: 'pieces' }), pieces);
    expect(few).toMatchObject({ minimised: 'count', value: 1, price: 30 });
    const unpriced = await stockBillOf(plan, [straightPiece('1A', 100)]);
    expect(unpriced.price).toBeNull();
  });

  test('estimates mass, weld, filler and purge from the pieces', async () => {
    const pieces = [straightPiece('1A', 1000)];
    const bill = await stockBillOf(planOf({ sticks: [{ length: 2000 }], material: '304 stainless' }), pieces);
    // 0.0246615 (D - T) T kg/m at 7850; EN 10088-1: 304 has 7900 kg/m3
    expect(bill.tubeMass).toBeCloseTo((0.0246615 * 40.8 * 1.6 * 7900) / 7850, 5);
    const merge = mergeWelds(collectorGeometry(BASE_PLAN.collectors[0]!, BASE_PLAN.tube));
    expect(merge.seams).toBeGreaterThan(50);
    // round two joined tubes: more than round one, less than round both
    expect(merge.round).toBeGreaterThan(1.1 * Math.PI * 40.8);
    expect(merge.round).toBeLessThan(2 * Math.PI * 40.8);
    const merged = merge.seams + merge.round;
    expect(bill.weldLength).toBeCloseTo(2 * Math.PI * 40.8 + merged, 9);
    expect(bill.purgeVolume).toBeCloseTo((Math.PI * 19.6 ** 2 * 1000) / 1e6, 9);
    const { weldLeg } = BASE_PLAN.flange;
    expect(bill.fillerMass).toBeCloseTo(
      (Math.PI * 40.8 * (weldLeg ** 2 / 2 + 1.6 ** 2) + merged * 1.6 ** 2) * 7900e-9,
      9,
    );
    const unknown = { ...planOf({}), tube: { ...planOf({}).tube, material: 'unobtainium' } };
    expect(await stockBillOf(unknown, pieces)).toMatchObject({ tubeMass: null, fillerMass: null });
    const told = { ...unknown, stock: { ...unknown.stock, density: 8440 } };
    expect((await stockBillOf(told, pieces)).tubeMass).toBeCloseTo((bill.tubeMass! * 8440) / 7900, 9);
  });
});

describe('random pieces', () => {
  const length = fc.double({ min: 10, max: 300, noNaN: true });
  const angle = fc.double({ min: 0.05, max: Math.PI, noNaN: true });
  const leg = fc.double({ min: 0, max: 60, noNaN: true });
  const piece = fc.oneof(
    length.map(
      (l) =>
        (name: string): CutPiece =>
          straightPiece(name, l),
    ),
    fc.tuple(angle, leg, fc.boolean()).map(
      ([a, l, before]) =>
        (name: string): CutPiece =>
          bendPiece(name, 63.5, a, before ? l : 0, before ? 0 : l),
    ),
  );
  test('are cut once each, as the checker of bills has it, within bound and first-fit', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(piece, { minLength: 1, maxLength: 16 }),
        fc.record({ kerf: fc.constantFrom(0, 1.2, 3), grip: fc.constantFrom(0, 25) }),
        fc.constantFrom(null, 2),
        async (makers, saw, available) => {
          const pieces = makers.map((make, i) => make(`1${i}`));
          const offer = available === null ? {} : { available };
          const plan = planOf({ bends: [{ ...U_BEND, ...offer }], sticks: [{ length: 400, ...offer }] }, saw);
          const bill = await stockBillOf(plan, pieces);
          expect(billFaults(bill, pieces, saw)).toEqual([]);
          expect(bill.bound).toBeLessThanOrEqual(bill.value);
          if (bill.firstFit !== null) expect(bill.value).toBeLessThanOrEqual(bill.firstFit);
          for (const use of bill.uses) expect(use.waste).toBeCloseTo(wasted(use), 6);
        },
      ),
      { numRuns: 40 },
    );
  });
});

describe('the checker of bills', () => {
  const plan = planOf({ bends: [U_BEND], sticks: [{ length: 500 }] });
  const pieces = [
    bendPiece('1A', 63.5, 1, 50),
    bendPiece('1B', 63.5, 1),
    straightPiece('1C', 200),
    straightPiece('1D', 200),
  ];
  let bill: StockBill;
  beforeAll(async () => {
    bill = await stockBillOf(plan, pieces);
  });
  const changed = (piece: string, by: number, change: Partial<StockUse['cuts'][number]> = {}): StockBill => ({
    ...bill,
    uses: bill.uses.map((u) => ({
      ...u,
      cuts: u.cuts.map((c) => (c.piece === piece ? { ...c, from: c.from + by, to: c.to + by, ...change } : c)),
    })),
  });
  const faults = (b: StockBill): string => billFaults(b, pieces, plan.stock).join('; ');

  test('finds no fault with a sound one', () => {
    expect(faults(bill)).toBe('');
    expect(bill.uses).toHaveLength(2);
  });

  test('finds what is wrong', () => {
    expect(faults({ ...bill, uses: bill.uses.slice(1) })).toContain('not every piece is there exactly once');
    expect(faults(changed('1A', -40))).toContain('does not have its legs and its bend where they are');
    expect(faults(changed('1B', -0.5))).toContain('no room for the saw');
    expect(faults(changed('1D', 80))).toContain('the vice has nothing to hold');
    expect(faults(changed('1D', 200))).toContain('reaches beyond it');
    expect(faults(changed('1C', 0, { to: 150 }))).toContain('is not as long as wanted');
    expect(faults(changed('1A', 0, { reversed: true }))).toContain(
      'does not have its legs and its bend where they are',
    );
    const scarce = bill.shopping.map((s) => ({ ...s, item: { ...s.item, available: 0 } }));
    expect(faults({ ...bill, shopping: scarce })).toContain('more than there are');
  });
});

describe.each(STARTERS)('starter $name', ({ name }) => {
  test('has its stock proven least, sawn as listed, the same every time', async () => {
    const { plan, primaries, secondaries } = routedStarter(name);
    const pieces = [...primaries, ...secondaries].flatMap((t) => cutsOf(plan, t).pieces);
    const bill = await stockBillOf(plan, pieces);
    expect(billFaults(bill, pieces, plan.stock)).toEqual([]);
    expect(bill.optimal).toBe(true);
    expect(bill.bound).toBe(bill.value);
    expect(bill.uses).toHaveLength(bill.value);
    expect(bill.firstFit).toBeGreaterThanOrEqual(bill.value);
    // whatever is unmade keeps two legs on a bend that is less than its stock
    for (const u of bill.unmade) expect(u.why).toContain('both legs');
    expect(JSON.stringify(await stockBillOf(plan, pieces))).toBe(JSON.stringify(bill));
    expect(bill.weldLength).toBeGreaterThan(0);
    expect(bill.tubeMass).toBeGreaterThan(0.1);
  });
});
