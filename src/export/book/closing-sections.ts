import type { Summary } from '../summary/summary-schema.js';
import type { BookInput } from './book-input.js';
import type { BookSection } from './book-section.js';
import { fileLink } from './drawing.js';
import { html, lines } from './html.js';
import { paragraph, section } from './section.js';
import { bookTable, lengthColumn, numberColumn, wordColumn } from './table.js';

type Alternative = Summary['alternatives'][number];

/** The sets of routes that were compared; null where no others were asked for. */
export function alternativesSection({ plan, summary }: BookInput): BookSection | null {
  if (summary.alternatives.length < 2) return null;
  const columns = [
    numberColumn<Alternative>('set', '', 0, (a) => a.number, true),
    wordColumn<Alternative>('tubes at the inlets', (a) => a.order),
    numberColumn<Alternative>('bends', '', 0, (a) => a.bends),
    numberColumn<Alternative>('turning', 'deg', 1, (a) => a.turning_deg),
    lengthColumn<Alternative>('least CLR', 1, plan.units, (a) => a.least_clr_mm),
    lengthColumn<Alternative>('least gap', 2, plan.units, (a) => a.least_gap_mm),
    numberColumn<Alternative>('pieces', '', 0, (a) => a.pieces),
    lengthColumn<Alternative>('length', 1, plan.units, (a) => a.length_mm),
  ];
  return section(
    'alternatives',
    'Alternatives',
    bookTable('Sets of routes', columns, summary.alternatives),
    paragraph('Set 1 is the one that is built.'),
  );
}

/** What can hurt. */
export const cautionsSection = (cautions: readonly string[]): BookSection =>
  section(
    'cautions',
    'Cautions',
    html`<ul class="cautions">${cautions.map(
      (c) => html`<li>${c}</li>
`,
    )}</ul>
`,
  );

/** The plan as it was written; null where it is not at hand. */
export function planSection({ plan, page }: BookInput): BookSection | null {
  if (page.source === null) return null;
  const { name, text } = page.source;
  return section(
    'plan',
    'The plan',
    html`<p>${name} as it was read. SHA-256 <code class="long">${plan.hash}</code></p>
<pre class="scroll" tabindex="0" role="group" aria-label="The plan as it was written"><code>${lines(text)}</code></pre>
`,
  );
}

/** What else the build wrote, by folder. */
export function filesSection({ summary }: BookInput): BookSection {
  const folders = new Map<string, string[]>();
  for (const { path } of [{ path: 'summary.json' }, ...summary.files]) {
    const at = path.lastIndexOf('/') + 1;
    folders.set(path.slice(0, at), [...(folders.get(path.slice(0, at)) ?? []), path]);
  }
  const rows = [...folders].map(
    ([folder, paths]) =>
      html`<dt>${folder === '' ? 'beside this book' : folder}</dt><dd>${paths.map((p) => html`${fileLink(p)} `)}</dd>
`,
  );
  return section(
    'files',
    'Files',
    html`<dl class="files">${rows}</dl>
`,
  );
}
