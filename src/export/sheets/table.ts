import type { Doc } from '../paper/document.js';
import { type Align, BODY, KEY, widthOfWords, words, wrapped } from '../paper/words.js';
import type { Block } from './block.js';

/** A column of a table. */
export interface Column {
  readonly head: string;
  readonly align: Align;
  /** A box to tick or a field to write in instead of words. */
  readonly fill?: 'box' | 'field';
  /** True for numbers that matter most. */
  readonly key?: boolean;
  /** Drawn instead of words; the column is at least `least` mm wide. */
  readonly least?: number;
}

/** Lines of one place of a table, or a drawing of it. */
export type Cell =
  | string
  | readonly string[]
  | { readonly draw: (doc: Doc, x: number, y: number, width: number, height: number) => void };

/** Distance of lines in a cell, mm. */
const LEADING = 4;

/** White on either side of a cell's words, mm. */
const PAD = 1.3;

/** Least height of a row, mm: room to write. */
const ROW = 7;

/** Words longer than this are broken, mm. */
const MOST = 46;

const isLines = (cell: Cell): cell is string | readonly string[] => typeof cell === 'string' || Array.isArray(cell);

const linesOf = (cell: Cell): readonly string[] => (typeof cell === 'string' ? [cell] : isLines(cell) ? cell : []);

const sizeOf = (column: Column): number => (column.key ? KEY : BODY);

/** A table as blocks: its head, kept with the first row, and its rows. It is as wide as `width` mm or, with `snug`, as its words need. */
export function table(
  doc: Doc,
  columns: readonly Column[],
  rows: readonly (readonly Cell[])[],
  width: number,
  snug = false,
): Block[] {
  const widths = widthsOf(doc, columns, rows, width, snug);
  const head = headBlock(doc, columns, widths);
  const body = rows.map((row) => rowBlock(doc, columns, row, widths, head));
  return [{ ...head, keep: true }, ...body];
}

function widthsOf(
  doc: Doc,
  columns: readonly Column[],
  rows: readonly (readonly Cell[])[],
  width: number,
  snug: boolean,
): number[] {
  const natural = columns.map((c, k) => {
    const cells = rows.flatMap((row) => linesOf(row[k]!));
    const widest = Math.max(0, ...cells.map((line) => widthOfWords(doc, line, sizeOf(c), c.key)));
    const fill = c.fill === 'box' ? 4 : c.fill === 'field' ? 22 : (c.least ?? 0);
    const headWords = c.fill === 'box' ? 0 : Math.max(...c.head.split(' ').map((w) => widthOfWords(doc, w, BODY)));
    return Math.max(Math.min(widest, MOST), headWords, fill) + 2 * PAD;
  });
  const spare = width - natural.reduce((a, b) => a + b, 0);
  if (spare < 0) return narrowed(columns, natural, -spare);
  if (snug) return natural;
  const wide = columns.some((c) => c.least !== undefined || c.fill === 'field');
  const takes = columns.map((c) => (!wide || c.least !== undefined || c.fill === 'field' ? 1 : 0.35));
  const all = takes.reduce((a, b) => a + b, 0);
  return natural.map((w, k) => w + (spare * takes[k]!) / all);
}

/** Columns of words give way where a table is too wide, their words are broken; where that is not enough all give way. */
function narrowed(columns: readonly Column[], natural: readonly number[], over: number): number[] {
  const gives = columns.map((c, k) => (c.align === 'left' && !c.fill ? Math.max(0, natural[k]! - 14) : 0));
  const all = gives.reduce((a, b) => a + b, 0);
  const given = Math.min(over, all);
  const narrow = natural.map((w, k) => w - (all > 0 ? (gives[k]! * given) / all : 0));
  const whole = narrow.reduce((a, b) => a + b, 0);
  return narrow.map((w) => (w * (whole - (over - given))) / whole);
}

function headBlock(doc: Doc, columns: readonly Column[], widths: readonly number[]): Block {
  const lines = columns.map((c, k) => (c.fill === 'box' ? [c.head] : wrapped(doc, c.head, widths[k]! - 2 * PAD, BODY)));
  const upright = columns.map((c) => (c.fill === 'box' ? widthOfWords(doc, c.head, BODY) : 0));
  const height = Math.max(...lines.map((l) => l.length * LEADING), ...upright) + 2.4;
  return {
    height,
    draw: (page, [x0, y]) => {
      let x = x0;
      columns.forEach((c, k) => {
        const w = widths[k]!;
        if (c.fill === 'box') uprightWords(page, c.head, x + w / 2 + 1.1, y + height - 1.6);
        else {
          lines[k]!.forEach((line, i) => {
            const base = y + height - 1.9 - (lines[k]!.length - 1 - i) * LEADING;
            words(page, line, edgeOf(c.align, x, w), base, BODY, c.align);
          });
        }
        x += w;
      });
      rule(page, x0, x, y + height, 0.35, 'black');
    },
  };
}

function uprightWords(doc: Doc, line: string, x: number, y: number): void {
  doc.save().translate(x, y).rotate(-90);
  words(doc, line, 0, 0, BODY);
  doc.restore();
}

const edgeOf = (align: Align, x: number, width: number): number =>
  align === 'left' ? x + PAD : align === 'right' ? x + width - PAD : x + width / 2;

function rowBlock(
  doc: Doc,
  columns: readonly Column[],
  row: readonly Cell[],
  widths: readonly number[],
  head: Block,
): Block {
  const lines = row.map((cell, k) => {
    const c = columns[k]!;
    return linesOf(cell).flatMap((l) =>
      l === '' ? [''] : wrapped(doc, l, widths[k]! - 2 * PAD + 0.01, sizeOf(c), c.key),
    );
  });
  const height = Math.max(ROW, ...lines.map((l) => l.length * LEADING + 1.6));
  return {
    height,
    head,
    draw: (page, [x0, y]) => {
      let x = x0;
      columns.forEach((c, k) => {
        const [w, cell] = [widths[k]!, row[k]!];
        if (c.fill) emptyBox(page, c.fill, x, y, w, height);
        else if (!isLines(cell)) cell.draw(page, x, y, w, height);
        lines[k]!.forEach((line, i) => {
          if (line === '') return;
          const base = y + height / 2 + 1.15 + (i - (lines[k]!.length - 1) / 2) * LEADING;
          // The second line of a length is inches: only the first is set large.
          const large = c.key === true && i === 0;
          words(page, line, edgeOf(c.align, x, w), base + (large ? 0.35 : 0), large ? KEY : BODY, c.align, large);
        });
        x += w;
      });
      rule(page, x0, x, y + height, 0.12, '#888888');
    },
  };
}

function emptyBox(doc: Doc, fill: 'box' | 'field', x: number, y: number, width: number, height: number): void {
  doc.lineWidth(0.25).strokeColor('#555555');
  if (fill === 'box') doc.rect(x + width / 2 - 2, y + height / 2 - 2, 4, 4).stroke();
  else doc.rect(x + 1, y + height / 2 - 2.8, width - 2, 5.6).stroke();
  doc.strokeColor('black');
}

function rule(doc: Doc, from: number, to: number, y: number, width: number, colour: string): void {
  doc.lineWidth(width).strokeColor(colour).moveTo(from, y).lineTo(to, y).stroke().strokeColor('black');
}
