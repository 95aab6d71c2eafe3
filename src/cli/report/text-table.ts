import { lengthWords } from '../../params/faults/wording.js';
import type { LengthUnit } from '../../params/units.js';

/** Rows as lines, every column as wide as its widest cell, set to the right. */
export function textTable(rows: readonly (readonly string[])[]): string[] {
  const widths = rows[0]!.map((_, i) => Math.max(...rows.map((r) => r[i]!.length)));
  return rows.map((r) => r.map((cell, i) => cell.padStart(widths[i]!)).join('   '));
}

/** A length in mm with its sign and unit: '+0.120 mm', '+0.00472 in'. */
export const signedWords = (mm: number, unit: LengthUnit): string =>
  `${mm < -5e-4 ? '-' : '+'}${lengthWords(Math.abs(mm), unit, 3)}`;
