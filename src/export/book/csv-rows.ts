import type { OutputFile } from '../output-file.js';

/** A row of a table by the names of its columns. */
export type CsvRow = ReadonlyMap<string, string>;

/**
 * The rows of one of our own tables (RFC 4180), none where there is no such file. Pages read the tables that are written beside
 * them, so that no number is told twice.
 */
export function csvRows(files: readonly OutputFile[], path: string): CsvRow[] {
  const file = files.find((f) => f.path === path);
  if (file === undefined) return [];
  const [head, ...rows] = recordsOf(new TextDecoder().decode(file.bytes));
  return rows.map((cells) => new Map(head!.map((name, i) => [name, plain(cells[i] ?? '')])));
}

/** Text without the apostrophe that keeps a spreadsheet from taking it for a formula. */
const plain = (cell: string): string => cell.replace(/^'(?=[=+\-@\t\r])/, '');

const CELL = /("(?:[^"]|"")*"|[^,\r\n]*)(,|\r\n|$)/y;

function recordsOf(text: string): string[][] {
  const records: string[][] = [];
  let cells: string[] = [];
  CELL.lastIndex = 0;
  while (CELL.lastIndex < text.length) {
    const [, cell, end] = CELL.exec(text)!;
    cells.push(cell!.startsWith('"') ? cell!.slice(1, -1).replaceAll('""', '"') : cell!);
    if (end === ',') continue;
    records.push(cells);
    cells = [];
  }
  return records;
}

/** A number of a row; null where the cell is empty. Throws RangeError for what is no number and for a column that is not there. */
export function numberOf(row: CsvRow, column: string): number | null {
  const cell = wordsOf(row, column);
  if (cell === '') return null;
  const value = Number(cell);
  if (!Number.isFinite(value)) throw new RangeError(`column ${column} holds ${cell}, which is no number`);
  return value;
}

/** A text of a row. Throws RangeError for a column that is not there. */
export function wordsOf(row: CsvRow, column: string): string {
  const cell = row.get(column);
  if (cell === undefined) throw new RangeError(`there is no column ${column}`);
  return cell;
}
