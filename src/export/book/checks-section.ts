import type { Units } from '../sheets/sheet-numbers.js';
import type { Summary } from '../summary/summary-schema.js';
import type { BookInput } from './book-input.js';
import type { BookSection } from './book-section.js';
import { type Html, html } from './html.js';
import { folded, paragraph, section, subheading } from './section.js';
import { type BookColumn, bookTable, lengthCell, numberColumn, wordColumn } from './table.js';
import { whatToDo } from './what-to-do.js';

type Finding = Summary['findings'][number];

/** What the checks found, with the reason and what to do: what fails first, then what wants a look, then what holds. */
export function checksSection({ plan, summary }: BookInput): BookSection {
  const of = (level: Finding['level']): Finding[] => summary.findings.filter((f) => f.level === level);
  const [fails, looks, holds] = [of('fail'), of('warn'), of('ok')];
  return section(
    'checks',
    'Checks',
    fails.length === 0
      ? paragraph(html`<strong class="good">✓ No check fails.</strong>`)
      : [
          subheading(`${fails.length} ${fails.length === 1 ? 'check fails' : 'checks fail'}`),
          findingList(fails, 'bad'),
        ],
    looks.length === 0 ? null : [subheading(`${looks.length} to look at`), findingList(looks, 'warn')],
    holds.length === 0
      ? null
      : [
          subheading(`${holds.length} hold`),
          folded(
            'Every check that holds, with its value and limit',
            bookTable('Checks that hold', columnsOf(plan.units), holds),
            'left out',
          ),
          html`<p class="on-paper">They are listed in the book on the screen, and in summary.json.</p>
`,
        ],
  );
}

const SIGN = { bad: '✕ fails', warn: '▲ look' } as const;

/** Findings of the same reason together, each with what to do. */
function findingList(findings: readonly Finding[], state: 'bad' | 'warn'): Html {
  const alike = new Map<string, Finding[]>();
  for (const f of findings) {
    const key = `${f.id} ${f.message}`;
    alike.set(key, [...(alike.get(key) ?? []), f]);
  }
  return html`<ul class="findings">${[...alike.values()].map(
    (
      group,
    ) => html`<li class="${state}"><strong class="${state}">${SIGN[state]}</strong> <span class="place">${group.map((f) => f.place).join('; ')}</span> <code>${group[0]!.id}</code>
<p>${group[0]!.message}</p><p class="mend">${whatToDo(group[0]!.id)}</p></li>
`,
  )}</ul>
`;
}

const UNITS: Readonly<Record<Finding['unit'], string>> = {
  mm: 'mm',
  deg: '°',
  mm2: 'mm²',
  mm3: 'mm³',
  ratio: '',
  count: '',
  s: 's',
};

/** A value as it was found; of an inch plan's lengths the inches too. */
function amountColumn(head: string, units: Units, value: (f: Finding) => number, key = false): BookColumn<Finding> {
  const plain = numberColumn<Finding>(head, '', 3, value, key);
  return { ...plain, cell: (f) => (f.unit === 'mm' ? lengthCell(value(f), 3, units) : plain.cell(f)) };
}

const columnsOf = (units: Units): BookColumn<Finding>[] => [
  wordColumn<Finding>('check', (f) => html`<code>${f.id}</code>`),
  wordColumn<Finding>('place', (f) => f.place),
  amountColumn('value', units, (f) => f.value, true),
  amountColumn('limit', units, (f) => f.limit),
  wordColumn<Finding>('unit', (f) => (f.unit === 'mm' && units === 'in' ? 'mm, in' : UNITS[f.unit])),
  wordColumn<Finding>('reason', (f) => html`<span class="where">${f.message}</span>`),
];
