import { lengthWords, type Units } from '../sheets/sheet-numbers.js';
import type { Summary } from '../summary/summary-schema.js';
import type { BookInput } from './book-input.js';
import type { BookSection } from './book-section.js';
import { type Html, html } from './html.js';
import { folded, paragraph, section, subheading } from './section.js';
import { type BookColumn, bookTable, lengthColumn, wordColumn } from './table.js';

type Finding = Summary['findings'][number];

const GROUPS: readonly (readonly [string, string])[] = [
  ['clearance.tubes', 'Between tubes'],
  ['clearance.approach', 'Between tubes that draw together'],
  ['clearance.run-in', 'Just before the inlets'],
  ['clearance.kept-out', 'To kept-out space, and to the room of tools'],
  ['clearance.self', 'Of a tube to itself'],
];

/** How many of those with the least to spare are shown above all. */
const TIGHTEST = 8;

/** Longer lists are left to the screen. */
const MOST_ON_PAPER = 30;

/** Every gap against its limit: the tightest at once, all of them by kind below. */
export function clearancesSection({ plan, summary }: BookInput): BookSection {
  const all = summary.findings.filter((f) => f.id.startsWith('clearance.')).sort(bySpare);
  const tightest = all.filter((f) => f.limit > 0 || f.level === 'fail').slice(0, TIGHTEST);
  return section(
    'clearances',
    'Clearances',
    paragraph(
      'True least distances between the skins. The hatched part beside each bar is too near; the bar ends at the gap that was found, with an arrow where it is wider than the scale.',
    ),
    HATCH,
    tightest.length === 0 ? null : [subheading('Least to spare'), gapTable('Least to spare', tightest, plan.units)],
    subheading(`All ${all.length} by kind`),
    GROUPS.map(([id, title]) =>
      groupOf(
        title,
        all.filter((f) => f.id === id),
        plan.units,
      ),
    ),
  );
}

/** Those that must keep off before those that may touch, the least to spare first. */
const bySpare = (a: Finding, b: Finding): number =>
  Number(b.limit > 0) - Number(a.limit > 0) || a.value - a.limit - (b.value - b.limit);

/** The hatching of what is too near, for every bar. */
const HATCH = html`<svg class="defs" width="0" height="0" aria-hidden="true"><defs><pattern id="too-near" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path class="hatch" d="M0 0V5"/></pattern></defs></svg>
`;

function groupOf(title: string, gaps: readonly Finding[], units: Units): Html | null {
  const tightest = gaps[0];
  if (tightest === undefined) return null;
  const least = `${gaps.length}, the tightest ${lengthWords(tightest.value, 2, units)} of ${lengthWords(tightest.limit, 2, units)}`;
  const all = gapTable(title, gaps, units);
  if (gaps.length <= MOST_ON_PAPER) return folded(`${title}: ${least}`, all);
  return html`${folded(`${title}: ${least}`, all, 'left out')}<p class="on-paper">${title}: ${least}. Listed in the book on the screen, and in summary.json.</p>
`;
}

function gapTable(title: string, gaps: readonly Finding[], units: Units): Html {
  const limit = Math.max(...gaps.map((g) => g.limit));
  const scale = Math.ceil(Math.max(1.5 * limit, Math.min(4 * limit, 1.1 * Math.max(...gaps.map((g) => g.value))), 10));
  return bookTable(title, columnsOf(scale, units), gaps);
}

const columnsOf = (scale: number, units: Units): BookColumn<Finding>[] => [
  wordColumn('place', (f) => f.place),
  lengthColumn('gap', 2, units, (f) => f.value, true),
  lengthColumn('limit', 2, units, (f) => f.limit),
  wordColumn(`0 to ${lengthWords(scale, 0, units)}`, (f) => gapBar(f, scale)),
  wordColumn('holds', (f) =>
    f.level === 'fail' ? html`<span class="bad">✕ too near</span>` : html`<span class="good">✓ yes</span>`,
  ),
  wordColumn('where', (f) => html`<span class="where">${placeWords(f.message)}</span>`),
];

/** Where the gap is, without its size, which stands in the row. */
const placeWords = (message: string): string => message.replace(/: [^:]*$/, '');

const WIDTH = 180;
const HEIGHT = 18;

/** A gap as a bar below the part that is too near. */
function gapBar({ value, limit, level }: Finding, scale: number): Html {
  const x = (mm: number): number => Math.round((Math.max(0, Math.min(mm, scale)) / scale) * (WIDTH - 12) * 10) / 10;
  const beyond = value > scale ? html`<path class="arrow" d="M${WIDTH - 11} 5l9 6l-9 6z"/>` : null;
  return html`<svg class="gap ${level}" viewBox="0 0 ${WIDTH} ${HEIGHT}" width="${WIDTH}" height="${HEIGHT}" aria-hidden="true"><rect fill="url(#too-near)" x="0" y="1" width="${x(limit)}" height="6"/><path class="limit" d="M${x(limit)} 0V18"/><rect class="bar" x="0" y="8" width="${x(value)}" height="6"/>${beyond}</svg>`;
}
