const encoder = new TextEncoder();

export type CsvCell = string | number | null;

/**
 * A CSV file (RFC 4180: CRLF, quotes doubled) as bytes. Numbers keep full precision with a point as decimal sign; null is an
 * empty cell. Text that a spreadsheet would take for a formula gets a leading apostrophe. Throws RangeError for NaN or infinity.
 */
export function csvBytes(header: readonly string[], rows: readonly (readonly CsvCell[])[]): Uint8Array {
  const lines = [header, ...rows].map((row) => row.map(cellText).join(','));
  return encoder.encode(`${lines.join('\r\n')}\r\n`);
}

function cellText(cell: CsvCell): string {
  if (cell === null) return '';
  if (typeof cell === 'number') {
    if (!Number.isFinite(cell)) throw new RangeError(`a table cell must be a finite number, not ${cell}`);
    return String(cell === 0 ? 0 : cell);
  }
  const text = /^[=+\-@\t\r]/.test(cell) ? `'${cell}` : cell;
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
