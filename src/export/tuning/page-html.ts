import type { BookSection } from '../book/book-section.js';
import { html } from '../book/html.js';
import { pageText } from '../book/page.js';
import { type BookColumn, bookTable } from '../book/table.js';
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
      const columns = block.columns.map(
        (c, k): BookColumn<readonly string[]> => ({
          head: c.head,
          align: c.align === 'right' ? 'number' : 'words',
          cell: (row) => row[k]!,
        }),
      );
      return bookTable(block.columns.map((c) => c.head).join(', '), columns, block.rows).html;
    }
    case 'plot':
      return `<figure class="line-plot" role="group" aria-label="${xmlText(block.plot.title)}" tabindex="0">${linePlot(block.plot)}</figure>`;
  }
}

/** Pages as one file that opens from disk, in the dress of the build book. */
export const pagesHtml = (title: string, pages: readonly Page[]): string =>
  pageText({
    title,
    head: html`<h1>${title}</h1>
`,
    sections: pages.map(pageSection),
    foot: 'First estimates; the engine builder and the dynamometer decide.',
    data: {},
    script: '',
  });
