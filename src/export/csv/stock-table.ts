import { degrees } from '../../geometry/angle.js';
import type { StockBill, StockItem } from '../../parts/stock/bill.js';
import type { OutputFile } from '../output-file.js';
import { type CsvCell, csvBytes } from './csv.js';

const HEADER = [
  'stock',
  'item',
  'item_kind',
  'piece',
  'kind',
  'from_mm',
  'to_mm',
  'turned_round',
  'bend_from_deg',
  'bend_to_deg',
  'inside_from_mm',
  'inside_to_mm',
  'centre_from_mm',
  'centre_to_mm',
  'outside_from_mm',
  'outside_to_mm',
] as const;

/**
 * The saw's list: one row a piece or offcut, in order along every item. `from_mm` and `to_mm` run along the item's centreline from its
 * first end, of a J-bend that of the long leg. The marks of a bend run from where the item's own bend starts, along its inside,
 * centreline and outside: (R - OD/2), R and (R + OD/2) times the angle.
 */
export function stockTable(bill: StockBill): OutputFile {
  const rows = bill.uses.flatMap((use) =>
    [
      ...use.cuts.map((c) => ({ ...c, kind: null })),
      ...use.offcuts.map((o) => ({ ...o, piece: null, reversed: null, kind: o.kept ? 'offcut kept' : 'offcut' })),
    ]
      .sort((a, b) => a.from - b.from)
      .map(({ piece, from, to, reversed, kind }): CsvCell[] => {
        const marks = marksOf(use.item, from, to);
        const turned = reversed === null ? null : reversed ? 'yes' : 'no';
        const own = kind ?? (marks === NO_MARKS ? 'straight' : 'bend');
        return [`S${use.number}`, use.item.name, use.item.kind, piece, own, from, to, turned, ...marks];
      }),
  );
  return { path: 'stock.csv', kind: 'stock', bytes: csvBytes(HEADER, rows) };
}

const NO_MARKS: readonly CsvCell[] = [null, null, null, null, null, null, null, null];

/** Angles this small are none, rad. */
const NO_ANGLE = 1e-9;

/** Where a stretch of an item begins and ends on its bend, in degrees and along inside, centreline and outside. */
function marksOf({ bend, od }: StockItem, from: number, to: number): readonly CsvCell[] {
  if (bend === null) return NO_MARKS;
  const { clr, angle, leg } = bend;
  const onArc = (run: number): number => Math.min(Math.max((run - leg) / clr, 0), angle);
  const [start, end] = [onArc(from), onArc(to)];
  if (end - start <= NO_ANGLE) return NO_MARKS;
  const along = [clr - od / 2, clr, clr + od / 2].flatMap((r) => [r * start, r * end]);
  return [degrees(start), degrees(end), ...along];
}
