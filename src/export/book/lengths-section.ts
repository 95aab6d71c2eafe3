import type { Plan } from '../../params/plan.js';
import { lengthWords, type Units } from '../sheets/sheet-numbers.js';
import type { Summary } from '../summary/summary-schema.js';
import type { BookInput } from './book-input.js';
import type { BookSection } from './book-section.js';
import { type Html, html } from './html.js';
import { lengthsPlot, signed } from './lengths-plot.js';
import { paragraph, section, subheading } from './section.js';
import { bookTable, lengthColumn, numberColumn, wordColumn } from './table.js';

interface Tube {
  readonly name: string;
  readonly collector: string;
  readonly inlet: number;
  readonly length_mm: number;
  readonly target_mm: number;
  readonly bends: number;
  readonly clearance_mm: number | null;
}

/** Every tube against its target: table and plots. */
export function lengthsSection({ plan, summary }: BookInput): BookSection {
  const primaries = primariesOf(summary);
  const secondaries = secondariesOf(summary);
  return section(
    'lengths',
    'Equal lengths',
    tubeGroup('primaries', 'Primaries', primaries, plan.runners.tolerance, plan),
    secondaries.length === 0 || plan.secondaries === null
      ? null
      : tubeGroup('secondaries', 'Secondaries', secondaries, plan.secondaries.tolerance, plan),
    paragraph(
      'The length of a primary is its centreline from the head face to the inlet plane of its collector, flange thickness included.',
    ),
  );
}

const primariesOf = ({ primaries }: Summary): Tube[] =>
  primaries.map(({ cylinder, ...t }) => ({ ...t, name: `cylinder ${cylinder}` }));

const secondariesOf = ({ secondaries }: Summary): Tube[] =>
  secondaries.map(({ from, ...t }) => ({ ...t, name: `from ${from}` }));

function tubeGroup(id: string, title: string, tubes: readonly Tube[], tolerance: number, { units }: Plan): Html {
  const plotted = tubes.map((t) => ({ name: t.name, length: t.length_mm, target: t.target_mm }));
  return html`${subheading(title)}${lengthsPlot(id, plotted, tolerance, units)}${bookTable(
    `${title}: length against target`,
    columns(units, tolerance),
    tubes,
  )}${paragraph(`Spread is longest less shortest. ${lengthWords(tolerance, 3, units)} are allowed, and as much from the target either way: the hatched band.`)}`;
}

const columns = (units: Units, tolerance: number) => [
  wordColumn<Tube>('tube', (t) => t.name),
  wordColumn<Tube>('ends at', (t) => `${t.collector}, inlet ${t.inlet}`),
  lengthColumn<Tube>('target', 3, units, (t) => t.target_mm),
  lengthColumn<Tube>('length', 3, units, (t) => t.length_mm, true),
  {
    head: 'difference',
    unit: units,
    align: 'number' as const,
    cell: (t: Tube) => signed(t.length_mm - t.target_mm, units),
  },
  wordColumn<Tube>('within', (t) => withinWords(Math.abs(t.length_mm - t.target_mm) <= tolerance + 1e-6)),
  numberColumn<Tube>('bends', '', 0, (t) => t.bends),
  lengthColumn<Tube>('least gap', 2, units, (t) => t.clearance_mm),
];

const withinWords = (held: boolean): Html =>
  held ? html`<span class="good">✓ yes</span>` : html`<span class="bad">✕ no</span>`;
