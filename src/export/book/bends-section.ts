import type { Units } from '../sheets/sheet-numbers.js';
import type { BookInput } from './book-input.js';
import type { BookSection } from './book-section.js';
import { type CsvRow, csvRows, numberOf, wordsOf } from './csv-rows.js';
import { fileLink } from './drawing.js';
import { type Html, html } from './html.js';
import { paragraph, section, subheading } from './section.js';
import { type BookColumn, bookTable, lengthColumn, numberColumn, wordColumn } from './table.js';

/** XYZ points and LRA rows of every tube. */
export function bendsSection({ plan, files }: BookInput): BookSection {
  const primaries = tables(csvRows(files, 'bend-table.csv'), 'cylinder', (c) => `Cylinder ${c}`, plan.units);
  const secondaries = tables(
    csvRows(files, 'secondary-bend-table.csv'),
    'from',
    (c) => `Secondary from ${c}`,
    plan.units,
  );
  return section(
    'bends',
    'Bend tables',
    paragraph(
      html`Point 0 is the head face, the last the inlet plane of the collector, those between the intersection points. Rotation is against the bend before, right-handed along the tube; the other way round beside it. Full precision: ${fileLink('bend-table.csv')}.`,
    ),
    primaries,
    secondaries,
  );
}

function tables(rows: readonly CsvRow[], column: string, title: (id: string) => string, units: Units): Html[] {
  const ids = [...new Set(rows.map((r) => wordsOf(r, column)))];
  return ids.map((id) => {
    const own = rows.filter((r) => wordsOf(r, column) === id);
    const name = title(id);
    return html`${subheading(name)}<div class="pair">${bookTable(`${name}: LRA`, lra(units), own.slice(1), 'shown')}${bookTable(`${name}: XYZ`, xyz(units), own, 'shown')}</div>
`;
  });
}

const length = (head: string, column: string, units: Units, key = false): BookColumn<CsvRow> =>
  lengthColumn(head, 2, units, (r) => numberOf(r, column), key);

const lra = (units: Units): BookColumn<CsvRow>[] => [
  wordColumn('to point', (r) => wordsOf(r, 'point')),
  length('L straight', 'straight_before_mm', units, true),
  numberColumn('R rotation', 'deg', 2, (r) => numberOf(r, 'rotation_deg'), true),
  numberColumn('or ccw', 'deg', 2, (r) => numberOf(r, 'rotation_ccw_deg')),
  numberColumn('A bend', 'deg', 2, (r) => numberOf(r, 'bend_deg'), true),
  length('CLR', 'clr_mm', units),
  length('arc', 'arc_mm', units),
  length('developed', 'developed_to_here_mm', units),
];

const xyz = (units: Units): BookColumn<CsvRow>[] => [
  wordColumn('point', (r) => wordsOf(r, 'point')),
  length('X', 'x_mm', units, true),
  length('Y', 'y_mm', units, true),
  length('Z', 'z_mm', units, true),
];
