/** Rows as lines, every column as wide as its widest cell, set to the right. */
export function textTable(rows: readonly (readonly string[])[]): string[] {
  const widths = rows[0]!.map((_, i) => Math.max(...rows.map((r) => r[i]!.length)));
  return rows.map((r) => r.map((cell, i) => cell.padStart(widths[i]!)).join('   '));
}

/** A length with its sign, three decimals: '+0.120'. */
export const signed = (x: number): string => `${x < -5e-4 ? '-' : '+'}${Math.abs(x).toFixed(3)}`;
