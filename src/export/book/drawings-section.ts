import type { Units } from '../sheets/sheet-numbers.js';
import type { BookInput } from './book-input.js';
import type { BookSection } from './book-section.js';
import { type CsvRow, csvRows, numberOf, wordsOf } from './csv-rows.js';
import { drawingFigure, drawingOf, fileLink } from './drawing.js';
import { html } from './html.js';
import { paragraph, section, subheading } from './section.js';
import { bookTable, lengthColumn, numberColumn, wordColumn } from './table.js';

/** The three views, drawn once for every book: on paper it stands for the solid view. */
export const OVERVIEW = 'overview.svg';

/** Flanges, plates and gaskets with their dimensions, and plates in numbers. */
export function drawingsSection({ plan, files }: Pick<BookInput, 'plan' | 'files'>): BookSection {
  const flat = files.filter(({ path, kind }) => kind === 'picture' && path !== OVERVIEW);
  const plates = csvRows(files, 'plates.csv');
  return section(
    'drawings',
    'Flange and plates',
    flat.map((file) => {
      const drawing = drawingOf(file);
      const beside = ['dxf', 'pdf']
        .map((kind) => file.path.replace(/svg$/, kind))
        .filter((path) => files.some((f) => f.path === path));
      return drawingFigure(
        drawing,
        `Drawing with dimensions: ${drawing.title}`,
        beside.map((path) => fileLink(path)),
      );
    }),
    plates.length === 0 ? null : [subheading('Plates'), bookTable('Plates', plateColumns(plan.units), plates)],
    paragraph('Measure the ports and bolt holes on the part itself before anything is cut.'),
  );
}

const plateColumns = (units: Units) => [
  wordColumn<CsvRow>('plate', (r) => wordsOf(r, 'plate'), true),
  wordColumn<CsvRow>('for', (r) => wordsOf(r, 'for')),
  numberColumn<CsvRow>('pieces', '', 0, (r) => numberOf(r, 'pieces')),
  lengthColumn<CsvRow>('thickness', 2, units, (r) => numberOf(r, 'thickness_mm')),
  wordColumn<CsvRow>('material', (r) => wordsOf(r, 'material')),
  lengthColumn<CsvRow>('width', 1, units, (r) => numberOf(r, 'width_mm')),
  lengthColumn<CsvRow>('height', 1, units, (r) => numberOf(r, 'height_mm')),
  numberColumn<CsvRow>('mass', 'kg', 2, (r) => numberOf(r, 'mass_kg')),
  wordColumn<CsvRow>('sizes', (r) => html`<span class="where">${wordsOf(r, 'sizes')}</span>`),
];
