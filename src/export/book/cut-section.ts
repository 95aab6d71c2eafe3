import { lengthWords, type Units } from '../sheets/sheet-numbers.js';
import type { BookInput } from './book-input.js';
import type { BookSection } from './book-section.js';
import { type CsvRow, csvRows, numberOf, wordsOf } from './csv-rows.js';
import { fileLink } from './drawing.js';
import { type Html, html } from './html.js';
import { paragraph, section, subheading } from './section.js';
import { type BookColumn, bookTable, lengthColumn, numberColumn, wordColumn } from './table.js';

/** Every tube's pieces and joints in order from where it starts. */
export function cutSection({ plan, files }: BookInput): BookSection {
  const { units } = plan;
  const pieces = csvRows(files, 'cut-list.csv');
  const joints = csvRows(files, 'joints.csv');
  const totals = csvRows(files, 'tube-totals.csv');
  return section(
    'cut-list',
    'Cut list',
    paragraph(
      html`Legs, arcs and cut lengths in order from the head. Clocking turns the reference line of the piece before to that of the piece after: clockwise looking along the gas, or the other way round. Full precision: ${fileLink('cut-list.csv')}, ${fileLink('joints.csv')}.`,
    ),
    totals.map((total) => {
      const tube = tubeOf(total);
      const own = (rows: readonly CsvRow[]): CsvRow[] => rows.filter((r) => tubeOf(r) === tube);
      return [
        subheading(nameOf(total)),
        bookTable(`${nameOf(total)}: pieces`, pieceColumns(units), own(pieces), 'shown'),
        bookTable(`${nameOf(total)}: joints`, jointColumns(units), own(joints), 'shown'),
        sumOf(total, plan.units),
      ];
    }),
  );
}

/** What tells the rows of one tube from those of another. */
const tubeOf = (row: CsvRow): string => `${wordsOf(row, 'cylinder')}/${wordsOf(row, 'secondary_from')}`;

const nameOf = (row: CsvRow): string => {
  const cylinder = wordsOf(row, 'cylinder');
  return cylinder === '' ? `Secondary from ${wordsOf(row, 'secondary_from')}` : `Cylinder ${cylinder}`;
};

const length = (head: string, column: string, digits: number, units: Units, key = false): BookColumn<CsvRow> =>
  lengthColumn(head, digits, units, (r) => numberOf(r, column), key);

/** A leg that is there. */
const leg = (head: string, column: string, units: Units): BookColumn<CsvRow> =>
  lengthColumn(head, 1, units, (r) => {
    const value = numberOf(r, column);
    return value === null || value < 0.05 ? null : value;
  });

const pieceColumns = (units: Units): BookColumn<CsvRow>[] => [
  wordColumn('piece', (r) => wordsOf(r, 'piece'), true),
  wordColumn('kind', (r) => wordsOf(r, 'kind')),
  length('OD', 'od_mm', 1, units),
  length('wall', 'wall_mm', 2, units),
  leg('leg', 'cut_leg_before_mm', units),
  numberColumn('bend', 'deg', 1, (r) => numberOf(r, 'bend_deg')),
  length('CLR', 'clr_mm', 1, units),
  leg('leg after', 'cut_leg_after_mm', units),
  length('inside', 'inside_arc_mm', 1, units),
  length('centre', 'centre_arc_mm', 1, units),
  length('outside', 'outside_arc_mm', 1, units),
  length('cut length', 'cut_length_mm', 1, units, true),
  length('runs to', 'to_mm', 1, units),
];

const jointColumns = (units: Units): BookColumn<CsvRow>[] => [
  wordColumn('joint', (r) => wordsOf(r, 'joint'), true),
  wordColumn('kind', (r) => wordsOf(r, 'kind')),
  wordColumn('between', (r) => betweenWords(r)),
  length('running length', 'run_mm', 1, units),
  numberColumn('clocking cw', 'deg', 1, (r) => numberOf(r, 'clocking_deg'), true),
  numberColumn('or ccw', 'deg', 1, (r) => numberOf(r, 'clocking_ccw_deg')),
  length('round OD cw', 'round_od_mm', 1, units),
  length('or ccw', 'round_od_ccw_mm', 1, units),
  length('weld', 'weld_length_mm', 0, units),
];

function betweenWords(r: CsvRow): string {
  const [before, after] = [wordsOf(r, 'piece_before'), wordsOf(r, 'piece_after')];
  if (before === '') return `start, ${after}`;
  return after === '' ? `${before}, end` : `${before}, ${after}`;
}

function sumOf(total: CsvRow, units: Units): Html {
  const mm = (column: string): string => lengthWords(numberOf(total, column)!, 3, units);
  return paragraph(
    `Start ${mm('start_mm')} + pieces as cut ${mm('pieces_mm')} + allowances at the joints ${mm('allowances_mm')} = ${mm('total_mm')}; target ${mm('target_mm')}.`,
  );
}
