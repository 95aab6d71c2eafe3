import { lengthWords, type Units } from '../sheets/sheet-numbers.js';
import type { Summary } from '../summary/summary-schema.js';
import type { BookInput } from './book-input.js';
import type { BookSection } from './book-section.js';
import { type CsvRow, csvRows, numberOf, wordsOf } from './csv-rows.js';
import { fileLink } from './drawing.js';
import { type Html, html } from './html.js';
import { paragraph, section, subheading } from './section.js';
import { type BookColumn, bookTable, lengthColumn, numberColumn, wordColumn } from './table.js';

/** What to buy and what to saw from it. */
export function stockSection({ plan, summary, files }: BookInput): BookSection {
  const { units } = plan;
  const shopping = csvRows(files, 'shopping-list.csv');
  const currency = summary.stock?.currency ?? '';
  return section(
    'stock',
    'Stock and shopping',
    summary.stock === null ? null : stockWords(summary.stock, plan.units),
    subheading('To buy'),
    bookTable('Shopping list', shoppingColumns(units, currency), shopping),
    subheading('Saw list'),
    paragraph(
      html`Every piece of stock from its first end; of bent stock the degrees within its own bend. Full marks along inside, centre and outside: ${fileLink('stock.csv')}.`,
    ),
    bookTable('Saw list', sawColumns(units), csvRows(files, 'stock.csv')),
    paragraph(
      'Saw: clamp the stock, let the blade stop, deburr. Check the list against the stock before the first cut.',
    ),
  );
}

function stockWords(stock: NonNullable<Summary['stock']>, units: Units): Html {
  const least = stock.minimised === 'price' ? 'cheapest' : 'fewest pieces';
  const proof = stock.optimal
    ? `proven the ${least}`
    : `not proven the ${least}: no less than ${stock.bound.toFixed(2)}`;
  const filler = stock.filler_mass_kg === null ? '' : `, filler about ${stock.filler_mass_kg.toFixed(3)} kg`;
  const unmade = stock.unmade.map((u) => paragraph(html`<strong class="bad">✕ ${u.piece}</strong> ${u.why}`));
  return html`${paragraph(
    `${stock.pieces} pieces of stock, ${proof}. Welds ${lengthWords(stock.weld_length_mm, 0, units)}${filler}; gas to fill all tubes once about ${stock.purge_volume_l.toFixed(1)} l.`,
  )}${unmade}`;
}

const shoppingColumns = (units: Units, currency: string): BookColumn<CsvRow>[] => [
  wordColumn('item', (r) => wordsOf(r, 'item')),
  wordColumn('amount', (r) => amountOf(r), true),
  lengthColumn('OD', 1, units, (r) => numberOf(r, 'od_mm')),
  lengthColumn('wall', 2, units, (r) => numberOf(r, 'wall_mm')),
  wordColumn('material', (r) => wordsOf(r, 'material')),
  lengthColumn('length each', 0, units, (r) => numberOf(r, 'length_each_mm')),
  numberColumn('mass', 'kg', 2, (r) => numberOf(r, 'mass_kg')),
  numberColumn('price', currency, 2, (r) => numberOf(r, 'total_price')),
];

/** Whole pieces as they are, estimates with three digits. */
function amountOf(row: CsvRow): string {
  const amount = numberOf(row, 'amount');
  if (amount === null) return '–';
  const unit = wordsOf(row, 'unit');
  if (unit !== 'piece') return `about ${amount.toFixed(3)} ${unit}`;
  return `${amount} ${amount === 1 ? 'piece' : 'pieces'}`;
}

const sawColumns = (units: Units): BookColumn<CsvRow>[] => [
  wordColumn('stock', (r) => wordsOf(r, 'stock'), true),
  wordColumn('item', (r) => wordsOf(r, 'item')),
  wordColumn('piece', (r) => wordsOf(r, 'piece') || wordsOf(r, 'kind'), true),
  lengthColumn('from', 1, units, (r) => numberOf(r, 'from_mm')),
  lengthColumn('to', 1, units, (r) => numberOf(r, 'to_mm')),
  wordColumn('turned round', (r) => wordsOf(r, 'turned_round') || '–'),
  numberColumn('bend from', 'deg', 1, (r) => numberOf(r, 'bend_from_deg')),
  numberColumn('to', 'deg', 1, (r) => numberOf(r, 'bend_to_deg')),
];
