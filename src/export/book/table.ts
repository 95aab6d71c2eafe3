import { inches } from '../../params/units.js';
import { fixed, type Units } from '../sheets/sheet-numbers.js';
import { type Html, type HtmlPart, html } from './html.js';

/** A column of a page's table and what stands in it. */
export interface BookColumn<Row> {
  readonly head: string;
  /** Shown under the head: 'mm'. */
  readonly unit?: string;
  readonly align: 'words' | 'number';
  /** Set in heavier type: the number one came for. */
  readonly key?: boolean;
  readonly cell: (row: Row) => HtmlPart;
}

/** Words of a row. */
export const wordColumn = <Row>(head: string, cell: (row: Row) => HtmlPart, key = false): BookColumn<Row> => ({
  head,
  align: 'words',
  key,
  cell,
});

/** A number with its unit in the head; a dash where there is none. */
export const numberColumn = <Row>(
  head: string,
  unit: string,
  digits: number,
  value: (row: Row) => number | null,
  key = false,
): BookColumn<Row> => ({
  head,
  unit,
  align: 'number',
  key,
  cell: (row) => plainCell(value(row), digits),
});

/** A length in mm, of an inch plan in inches below it with two digits more. */
export const lengthColumn = <Row>(
  head: string,
  digits: number,
  units: Units,
  value: (row: Row) => number | null,
  key = false,
): BookColumn<Row> => ({
  head,
  unit: units === 'mm' ? 'mm' : 'mm, in',
  align: 'number',
  key,
  cell: (row) => lengthCell(value(row), digits, units),
});

const plainCell = (value: number | null, digits: number): string => (value === null ? '–' : fixed(value, digits));

/** A length as cells show it. */
export function lengthCell(value: number | null, digits: number, units: Units): HtmlPart {
  if (value === null) return '–';
  if (units === 'mm') return fixed(value, digits);
  return html`${fixed(value, digits)}<br><span class="inch">${fixed(inches(value), digits + 2)}</span>`;
}

/**
 * A table that scrolls within its own box; the first column heads its row. The caption says what it is: to all, or to those alone who
 * hear it, where a heading above says the same.
 */
export function bookTable<Row>(
  caption: string,
  columns: readonly BookColumn<Row>[],
  rows: readonly Row[],
  told: 'shown' | 'heard' = 'heard',
): Html {
  const head = columns.map(
    (c) =>
      html`<th scope="col" class="${c.align}">${c.head}${c.unit ? html` <span class="unit">${c.unit}</span>` : null}</th>`,
  );
  const body = rows.map((row) => html`<tr>${columns.map((c, i) => cellOf(c, row, i === 0))}</tr>\n`);
  return html`<div class="scroll" role="group" aria-label="${caption}" tabindex="0"><table><caption class="${told}">${caption}</caption>
<thead><tr>${head}</tr></thead>
<tbody>
${body}</tbody></table></div>
`;
}

function cellOf<Row>(column: BookColumn<Row>, row: Row, heads: boolean): Html {
  const cell = column.cell(row);
  const style = column.key ? `${column.align} key` : column.align;
  return heads ? html`<th scope="row" class="${style}">${cell}</th>` : html`<td class="${style}">${cell}</td>`;
}
