import type { StockBill } from '../../parts/stock/bill.js';
import { tubeMass } from '../../parts/stock/estimates.js';
import type { OutputFile } from '../output-file.js';
import { type CsvCell, csvBytes } from './csv.js';

const HEADER = [
  'item',
  'kind',
  'amount',
  'unit',
  'unit_price',
  'total_price',
  'currency',
  'od_mm',
  'wall_mm',
  'material',
  'length_each_mm',
  'mass_kg',
] as const;

/**
 * What to buy: a row a kind of stock, then filler wire and gas to fill the tubes once, both estimates. Masses need `density`, kg/m3;
 * empty where it is not known. `length_each_mm` is the developed length of one.
 */
export function shoppingList(bill: StockBill, density: number | null): OutputFile {
  const stock = bill.shopping.map(({ item, count, price }): CsvCell[] => [
    item.name,
    item.kind,
    count,
    'piece',
    item.price,
    price,
    price === null ? null : bill.currency,
    item.od,
    item.wall,
    item.material,
    item.length,
    density === null ? null : count * tubeMass(item.od, item.wall, item.length, density),
  ]);
  const material = bill.shopping[0]?.item.material ?? null;
  const also = (item: string, amount: number | null, unit: string, mass: number | null): CsvCell[] => {
    return [item, 'estimate', amount, unit, null, null, null, null, null, unit === 'kg' ? material : null, null, mass];
  };
  const estimates = [
    also('filler wire', bill.fillerMass, 'kg', bill.fillerMass),
    also('purge gas, the tubes filled once', bill.purgeVolume, 'litre', null),
  ];
  return { path: 'shopping-list.csv', kind: 'shopping-list', bytes: csvBytes(HEADER, [...stock, ...estimates]) };
}
