import { textLines } from '../text-lines.js';
import type { Page, PageBlock, PageTable } from './page.js';

/** Width words are broken at. */
const WIDTH = 100;

/** A page as plain text. */
export const pageText = (page: Page): string =>
  `${[page.title, '='.repeat(page.title.length), '', ...page.blocks.flatMap(blockLines)].join('\n').trimEnd()}\n`;

function blockLines(block: PageBlock): string[] {
  switch (block.kind) {
    case 'heading':
      return [block.text, '-'.repeat(block.text.length)];
    case 'paragraph':
      return [...textLines(block.text, WIDTH), ''];
    case 'list':
      return [...block.items.flatMap((item) => indented(textLines(item, WIDTH - 2))), ''];
    case 'table':
      return [...tableLines(block), ''];
    case 'plot':
      return [`${block.plot.title}: ${block.file}`, ''];
  }
}

const indented = (lines: readonly string[]): string[] => lines.map((l, i) => (i === 0 ? `- ${l}` : `  ${l}`));

function tableLines({ columns, rows }: PageTable): string[] {
  const all = [columns.map((c) => c.head), ...rows];
  const widths = columns.map((_, k) => Math.max(...all.map((r) => r[k]!.length)));
  return all.map((row) =>
    row
      .map((cell, k) => (columns[k]!.align === 'left' ? cell.padEnd(widths[k]!) : cell.padStart(widths[k]!)))
      .join('   ')
      .trimEnd(),
  );
}
