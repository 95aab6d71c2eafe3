import { xmlText } from '../xml-text.js';

/** Markup that is safe to put in a page: made by `html`, which escapes every text it is given. */
export interface Html {
  readonly html: string;
}

export type HtmlPart = Html | string | number | null | readonly HtmlPart[];

/** Markup with texts put in: strings and numbers are escaped, markup is kept, lists are joined, null is nothing. */
export const html = (markup: TemplateStringsArray, ...parts: readonly HtmlPart[]): Html => ({
  html: markup.map((text, i) => text + (i < parts.length ? textOf(parts[i]!) : '')).join(''),
});

function textOf(part: HtmlPart): string {
  if (part === null) return '';
  if (typeof part === 'string') return xmlText(part);
  if (typeof part === 'number') return String(part);
  return 'html' in part ? part.html : part.map(textOf).join('');
}

/** Markup that is known to be safe. */
export const safe = (markup: string): Html => ({ html: markup });

/** Text of many lines, escaped, its line ends kept. */
export const lines = (text: string): Html =>
  safe(
    text
      .split(/\r\n?|\n/)
      .map(xmlText)
      .join('\n'),
  );
