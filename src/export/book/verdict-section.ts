import { shortHash } from '../../params/text/plan-hash.js';
import { lengthWords } from '../sheets/sheet-numbers.js';
import type { BookInput } from './book-input.js';
import { type Figure, figureList, lengthFigure } from './figures.js';
import { type Html, html } from './html.js';

/** The head of the book: name, verdict and the numbers one came for. */
export function verdictHead(input: BookInput): Html {
  const { plan, summary, verdict } = input;
  const { passed } = summary;
  return html`<header class="title" id="verdict">
<h1>${plan.name}</h1>
<p class="verdict ${passed ? 'good' : 'bad'}"><strong>${passed ? '✓ All checks hold' : '✕ Not all checks hold'}</strong> ${verdict}</p>
${figureList(figuresOf(input))}
<p class="hash">Plan <code title="${plan.hash}">${shortHash(plan.hash)}</code>, the first digits of its SHA-256: every paper of this build carries them.</p>
</header>
`;
}

function figuresOf({ plan, summary }: BookInput): Figure[] {
  const { units } = plan;
  const gaps = summary.primaries.flatMap((p) => (p.clearance_mm === null ? [] : [p.clearance_mm]));
  const count = summary.primaries.length;
  const spread = lengthFigure(
    'Spread',
    summary.spread_mm,
    3,
    units,
    `of ${lengthWords(summary.tolerance_mm, 3, units)} allowed`,
  );
  const target = summary.primaries[0]?.target_mm;
  return [
    { ...spread, state: summary.spread_mm <= summary.tolerance_mm + 1e-6 ? 'good' : 'bad' },
    ...(target === undefined
      ? []
      : [lengthFigure('Target length', target, 1, units, `for ${count} ${count === 1 ? 'primary' : 'primaries'}`)]),
    ...(gaps.length === 0
      ? []
      : [lengthFigure('Least gap', Math.min(...gaps), 2, units, 'between skins, and to kept-out space')]),
    checksFigure(summary.findings.map((f) => f.level)),
    ...stockFigures(summary.stock),
  ];
}

function checksFigure(levels: readonly string[]): Figure {
  const count = (level: string): number => levels.filter((l) => l === level).length;
  const [fail, warn] = [count('fail'), count('warn')];
  const note = html`<a href="#checks">${fail} fail, ${warn} to look at</a>`;
  const state = fail > 0 ? 'bad' : warn > 0 ? 'warn' : 'good';
  return { label: 'Checks that hold', value: String(count('ok')), unit: `of ${levels.length}`, note, state };
}

function stockFigures(stock: BookInput['summary']['stock']): Figure[] {
  if (stock === null) return [];
  const price = stock.price === null ? '' : `; ${stock.price.toFixed(2)} ${stock.currency ?? ''}`.trimEnd();
  const least = stock.minimised === 'price' ? 'least price' : 'fewest';
  const note = `${stock.optimal ? `proven ${least}` : 'not proven the least'}${price}`;
  const mass = stock.tube_mass_kg;
  return [
    { label: 'Stock', value: String(stock.pieces), unit: stock.pieces === 1 ? 'piece' : 'pieces', note },
    ...(mass === null
      ? []
      : [{ label: 'Tubes', value: mass.toFixed(2), unit: 'kg', note: 'without collector and flange' }]),
  ];
}
