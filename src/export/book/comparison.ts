import { shortHash } from '../../params/text/plan-hash.js';
import { bendsOf } from '../../routing/routed.js';
import { CAUTIONS } from '../cautions.js';
import type { OutputFile } from '../output-file.js';
import { fixed, type Units } from '../sheets/sheet-numbers.js';
import { leastGap } from '../summary/summary.js';
import type { BookPage } from './book-input.js';
import type { BookSection } from './book-section.js';
import { cautionsSection } from './closing-sections.js';
import { type ComparedRow, comparedRows, type Variant } from './comparison-rows.js';
import { type Html, type HtmlPart, html, lines } from './html.js';
import { lengthsPlot, signed } from './lengths-plot.js';
import { pageText } from './page.js';
import type { SceneData } from './scene-data.js';
import { folded, paragraph, section, subheading } from './section.js';
import { bookTable, lengthCell, lengthColumn, numberColumn, wordColumn } from './table.js';
import { overviewFigure, viewHost } from './view-section.js';

/** A variant with what is drawn of it. */
export interface DrawnVariant extends Variant {
  readonly scene: SceneData;
  readonly overview: OutputFile;
  readonly source: BookPage['source'];
}

/** Two headers or more side by side in one page: numbers with their differences, and all tubes in one view. */
export function comparisonText(variants: readonly DrawnVariant[], script: string): string {
  const units: Units = variants.some((v) => v.plan.units === 'in') ? 'in' : 'mm';
  const title = titleOf(variants);
  return pageText({
    title,
    head: headOf(title, variants),
    sections: [
      numbersSection(variants, units),
      lengthsSection(variants, units),
      drawnSection(variants),
      ...plansSection(variants),
      cautionsSection(CAUTIONS),
    ],
    foot: `${variants.map((v) => `${v.label}: ${v.plan.name}, plan ${shortHash(v.plan.hash)}`).join('; ')}. Made by evenrun.`,
    data: { scene: variants[0]!.scene, overlay: variants.slice(1).map(({ label, scene }) => ({ label, scene })) },
    script,
  });
}

function titleOf(variants: readonly Variant[]): string {
  const names = [...new Set(variants.map((v) => v.plan.name))];
  return names.length === 1 ? `${names[0]}: ${variants.length} side by side` : names.join(' and ');
}

const headOf = (title: string, variants: readonly Variant[]): Html => html`<header class="title" id="verdict">
<h1>${title}</h1>
${variants.map(
  (v) =>
    html`<p class="verdict ${v.passed ? 'good' : 'bad'}"><strong>${v.label}: ${v.passed ? '✓ all checks hold' : '✕ not all checks hold'}</strong> ${v.plan.name}, plan <code>${shortHash(v.plan.hash)}</code>: ${v.verdict}</p>
`,
)}<p>What is printed is built and checked by <code>evenrun build</code>; here stand the routes, their stock and the checks that need no printed part.</p>
</header>
`;

function numbersSection(variants: readonly Variant[], units: Units): BookSection {
  const rows = comparedRows(variants);
  const columns = [
    wordColumn<ComparedRow>('what', (r) => r.name),
    wordColumn<ComparedRow>('unit', (r) => r.unit),
    ...variants.flatMap((v, i) => [
      { head: v.label, align: 'number' as const, key: true, cell: (r: ComparedRow) => cellOf(r, r.values[i]!, units) },
      ...(i === 0
        ? []
        : [
            {
              head: `${v.label} less ${variants[0]!.label}`,
              align: 'number' as const,
              cell: (r: ComparedRow) => differenceOf(r, i),
            },
          ]),
    ]),
  ];
  return section('numbers', 'Side by side', bookTable('Side by side', columns, rows));
}

function cellOf({ unit, digits }: ComparedRow, value: number | null, units: Units): HtmlPart {
  if (value === null) return '–';
  return unit === 'mm' ? lengthCell(value, digits, units) : fixed(value, digits);
}

/** A difference with its sign: what is printed of one less what is printed of the other would round twice. */
function differenceOf({ digits, values }: ComparedRow, i: number): string {
  const [first, other] = [values[0]!, values[i]!];
  if (first === null || other === null) return '–';
  const text = fixed(other - first, digits);
  return Number(text) > 0 ? `+${text}` : text.replace('-', '−');
}

function lengthsSection(variants: readonly Variant[], units: Units): BookSection {
  const parts = variants.map((v, i) => {
    const tubes = [...v.primaries, ...v.secondaries];
    const rows = tubes.map((t) => ({ tube: t, gap: leastGap(v.gaps, t.id) }));
    type Row = (typeof rows)[number];
    const name = `${v.label}: ${v.plan.name}`;
    return [
      subheading(name),
      lengthsPlot(
        `variant-${i + 1}`,
        v.primaries.map((p) => ({ ...p, name: p.name })),
        v.plan.runners.tolerance,
        units,
      ),
      bookTable(
        `${name}, every tube`,
        [
          wordColumn<Row>('tube', (r) => r.tube.name),
          wordColumn<Row>('ends at', (r) => `${v.plan.collectors[r.tube.collector]!.name}, inlet ${r.tube.inlet}`),
          lengthColumn<Row>('target', 3, units, (r) => r.tube.target),
          lengthColumn<Row>('length', 3, units, (r) => r.tube.length, true),
          {
            head: 'difference',
            unit: units,
            align: 'number' as const,
            cell: (r: Row) => signed(r.tube.length - r.tube.target, units),
          },
          numberColumn<Row>('bends', '', 0, (r) => bendsOf(r.tube)),
          lengthColumn<Row>('least gap', 2, units, (r) => r.gap),
        ],
        rows,
      ),
    ];
  });
  return section('lengths', 'Lengths', parts);
}

const drawnSection = (variants: readonly DrawnVariant[]): BookSection =>
  section(
    'view',
    'Laid over each other',
    viewHost(variants[0]!.label),
    variants.map(
      (v) =>
        html`<div class="for-paper">${subheading(`${v.label}: ${v.plan.name}`)}${overviewFigure(v.overview, v.label)}</div>`,
    ),
  );

/** The plans as they were written, each once. */
function plansSection(variants: readonly DrawnVariant[]): BookSection[] {
  const named = variants.filter((v, i) => v.source && variants.findIndex((w) => w.plan.hash === v.plan.hash) === i);
  if (named.length === 0) return [];
  const parts = named.map((v) =>
    folded(
      `${v.source!.name}, plan ${shortHash(v.plan.hash)}`,
      html`<pre class="scroll" tabindex="0" role="group" aria-label="${v.source!.name} as it was written"><code>${lines(v.source!.text)}</code></pre>
`,
    ),
  );
  return [section('plans', 'The plans', paragraph('As they were read.'), parts)];
}
