import { allowances, type TubeCuts } from '../../parts/tube/tube-cuts.js';
import type { OutputFile } from '../output-file.js';
import { csvBytes } from './csv.js';

const HEADER = [
  'cylinder',
  'secondary_from',
  'pieces',
  'start_mm',
  'pieces_mm',
  'allowances_mm',
  'total_mm',
  'route_mm',
  'target_mm',
  'difference_mm',
] as const;

/**
 * tube-totals.csv: what every tube adds up to. `start_mm` is from the head face to the first piece, `pieces_mm` the pieces as they are
 * cut, `allowances_mm` what gaps less shrinkage add at the butt joints, `total_mm` all three together; `difference_mm` is the total less
 * the target.
 */
export function tubeTotalsTable(cuts: readonly TubeCuts[]): OutputFile {
  const rows = cuts.map((t) => {
    const { cylinder } = t.pieces[0]!.piece;
    const cut = t.pieces.reduce((sum, c) => sum + c.cutLength, 0);
    return [
      cylinder,
      cylinder === null ? t.tube : null,
      t.pieces.length,
      t.start,
      cut,
      allowances(t.joints),
      t.total,
      t.length,
      t.target,
      t.total - t.target,
    ];
  });
  return { path: 'tube-totals.csv', kind: 'tube-totals', bytes: csvBytes(HEADER, rows) };
}
