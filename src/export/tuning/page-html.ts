import type { BookSection } from '../book/book-section.js';
import { xmlText } from '../xml-text.js';
import { linePlot } from './line-plot.js';
import type { Page, PageBlock } from './page.js';

/** A page as a section of the build book: every text escaped, no scripts. */
export const pageSection = (page: Page): BookSection => ({
  id: page.id,
  title: page.title,
  html: page.blocks.map(blockHtml).join('\n'),
});

function blockHtml(block: PageBlock): string {
  switch (block.kind) {
    case 'heading':
      return `<h3>${xmlText(block.text)}</h3>`;
    case 'paragraph':
      return `<p>${xmlText(block.text)}</p>`;
    case 'list':
      return `<ul>${block.items.map((i) => `<li>${xmlText(i)}</li>`).join('')}</ul>`;
    case 'table': {
      const cell = (tag: string, text: string, align: string): string =>
        `<${tag}${align === 'right' ? ' style="text-align:right"' : ''}>${xmlText(text)}</${tag}>`;
      const head = block.columns.map((c) => cell('th', c.head, c.align)).join('');
      const rows = block.rows.map(
        (r) => `<tr>${r.map((t, k) => cell('td', t, block.columns[k]!.align)).join('')}</tr>`,
      );
      return `<table><thead><tr>${head}</tr></thead><tbody>${rows.join('')}</tbody></table>`;
    }
    case 'plot':
      return `<figure>${linePlot(block.plot)}</figure>`;
  }
}

const STYLE = `:root{color-scheme:light dark}body{font:16px/1.5 system-ui,sans-serif;max-width:60rem;margin:2rem auto;padding:0 1rem}
table{border-collapse:collapse;font-variant-numeric:tabular-nums;margin:0 0 1rem}th,td{padding:.2rem .7rem;text-align:left;vertical-align:top}
th{border-bottom:2px solid currentColor}td{border-bottom:1px solid color-mix(in srgb,currentColor 25%,transparent)}
figure{margin:1rem 0}svg{max-width:100%;height:auto}@media print{body{margin:0}}`;

/** Pages as one file that opens from disk. */
export function pagesHtml(title: string, pages: readonly Page[]): string {
  const body = pages
    .map(pageSection)
    .map((s) => `<section id="${xmlText(s.id)}"><h2>${xmlText(s.title)}</h2>\n${s.html}\n</section>`);
  return `<!doctype html>
<html lang="en">
<head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>${xmlText(title)}</title><style>${STYLE}</style></head>
<body>
<h1>${xmlText(title)}</h1>
${body.join('\n')}
</body>
</html>
`;
}
