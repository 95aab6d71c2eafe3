import { describe, expect, test } from 'vitest';
import type { CheckContext } from '../../../src/checks/context.js';
import { stockMakes } from '../../../src/checks/stock.js';
import { stockLine } from '../../../src/cli/report/stock-line.js';
import { shoppingList } from '../../../src/export/csv/shopping-list.js';
import { stockTable } from '../../../src/export/csv/stock-table.js';
import type { StockBill } from '../../../src/parts/stock/bill.js';
import { stockBillOf } from '../../../src/parts/stock/bill-of.js';
import { BASE, planFrom } from '../../params/base-plan.js';
import { bendPiece, straightPiece } from '../../support/stock-pieces.js';

const base = planFrom(BASE);
const plan = {
  ...base,
  tube: {
    ...base.tube,
    bends: [{ clr: 63.5, maxAngle: Math.PI, leg: 60, shortLeg: 60, name: 'shop U', price: 14.5 }],
    sticks: [{ length: 500, name: 'stick', price: 6 }],
  },
  stock: { ...base.stock, currency: 'EUR' },
};
const pieces = [
  bendPiece('1A', 63.5, Math.PI / 2, 50),
  bendPiece('1B', 63.5, Math.PI / 4),
  straightPiece('1C', 200),
  bendPiece('1D', 63.5, 1, 20, 20),
];
const bill = await stockBillOf(plan, pieces);

/** Rows of a table without quoted cells, by column. */
function rowsOf(bytes: Uint8Array): Record<string, string>[] {
  const [head, ...rows] = new TextDecoder().decode(bytes).trimEnd().split('\r\n');
  const names = head!.split(',');
  return rows.map((row) => Object.fromEntries(row.split(',').map((cell, i) => [names[i]!, cell])));
}

describe('stock.csv', () => {
  const rows = rowsOf(stockTable(bill).bytes);
  const row = (piece: string) => rows.find((r) => r.piece === piece)!;

  test('has a row a cut and offcut, in order along every item', () => {
    expect(
      rows
        .filter((r) => r.piece !== '')
        .map((r) => r.piece)
        .sort(),
    ).toEqual(['1A', '1B', '1C']);
    for (const stock of ['S1', 'S2']) {
      const own = rows.filter((r) => r.stock === stock);
      expect(own.length).toBeGreaterThan(1);
      own.slice(1).forEach((r, i) => {
        expect(Number(r.from_mm)).toBeGreaterThan(Number(own[i]!.to_mm));
      });
    }
    expect(rows.filter((r) => r.kind === 'offcut kept')).toHaveLength(1);
  });

  test('marks a bend along inside, centreline and outside: (R -/+ OD/2) and R times the angle', () => {
    const [a, b] = [row('1A'), row('1B')];
    expect(a.kind).toBe('bend');
    expect([a.bend_from_deg, a.bend_to_deg].map(Number)).toEqual([0, expect.closeTo(90, 9)]);
    // (63.5 - 21.2), 63.5 and (63.5 + 21.2) mm times a quarter turn
    expect([a.inside_to_mm, a.centre_to_mm, a.outside_to_mm].map(Number)).toEqual([
      expect.closeTo(66.4447, 4),
      expect.closeTo(99.7456, 4),
      expect.closeTo(133.0464, 4),
    ]);
    // the next cut starts one kerf of 2 mm on, where the bend is shortest
    expect(Number(b.inside_from_mm) - Number(a.inside_to_mm)).toBeCloseTo(2, 9);
    expect(Number(b.bend_to_deg) - Number(b.bend_from_deg)).toBeCloseTo(45, 9);
  });

  test('marks nothing on a straight', () => {
    expect(row('1C')).toMatchObject({ kind: 'straight', from_mm: '0', to_mm: '200', bend_from_deg: '' });
  });
});

describe('shopping-list.csv', () => {
  test('has counts, prices, masses, and the estimates', () => {
    const rows = rowsOf(shoppingList(bill, 7900).bytes.map((b) => b));
    expect(rows[0]).toMatchObject({ item: 'shop U', amount: '1', unit: 'piece', unit_price: '14.5', currency: 'EUR' });
    expect(rows[1]).toMatchObject({ item: 'stick', amount: '1', total_price: '6', length_each_mm: '500' });
    // 0.0246615 (D - T) T kg/m at 7850 kg/m3
    expect(Number(rows[1]!.mass_kg)).toBeCloseTo((0.5 * 0.0246615 * 40.8 * 1.6 * 7900) / 7850, 5);
    const unknown = rowsOf(shoppingList(bill, null).bytes);
    expect(unknown[1]!.mass_kg).toBe('');
    expect(new TextDecoder().decode(shoppingList(bill, 7900).bytes)).toContain('purge gas');
  });
});

describe('a piece that no stock makes', () => {
  test('wants a look, with its reason; nothing is said before nesting', () => {
    const of = (b: StockBill | null) => stockMakes({ bill: b } as CheckContext);
    expect(of(null)).toEqual([]);
    expect(of(bill)).toMatchObject([{ id: 'stock.makeable', level: 'warn', place: 'piece 1D', value: 1 }]);
    expect(of(bill)[0]!.message).toContain('it keeps both legs');
    expect(of({ ...bill, unmade: [] })).toMatchObject([{ level: 'ok', value: 0 }]);
  });
});

describe('the line of the report', () => {
  test('has kinds, price and proof', () => {
    expect(stockLine(bill)).toBe('Stock: 2 pieces (1 x shop U; 1 x stick), 20.50 EUR, proven fewest; no stock for 1D.');
    const open = { ...bill, unmade: [], price: null, optimal: false, bound: 1, firstFit: 3 };
    expect(stockLine(open)).toBe(
      'Stock: 2 pieces (1 x shop U; 1 x stick), not proven fewest: no less than 1 (first-fit takes 3).',
    );
  });
});
