import { inches } from '../../params/units.js';
import { fixed, type Units } from '../sheets/sheet-numbers.js';
import { type Html, type HtmlPart, html } from './html.js';

/** One large number with what it is. */
export interface Figure {
  readonly label: string;
  readonly value: string;
  readonly unit: string;
  /** A line below: what it is held against. */
  readonly note: HtmlPart;
  readonly state?: 'good' | 'bad' | 'warn';
}

/** A length as a large number; of an inch plan the inches stand before the note. */
export function lengthFigure(label: string, mm: number, digits: number, units: Units, note: string): Figure {
  const inch = units === 'in' ? `${fixed(inches(mm), digits + 2)} in; ` : '';
  return { label, value: fixed(mm, digits), unit: 'mm', note: `${inch}${note}` };
}

/** Large numbers in a row that wraps. */
export const figureList = (figures: readonly Figure[]): Html => html`<dl class="figures">
${figures.map(
  (
    f,
  ) => html`<div${f.state ? html` class="${f.state}"` : null}><dt>${f.label}</dt><dd><span class="value">${f.value}</span>${f.unit === '' ? null : html` <span class="unit">${f.unit}</span>`}<span class="note">${f.note}</span></dd></div>
`,
)}</dl>
`;
