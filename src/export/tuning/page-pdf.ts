import type { Plan } from '../../params/plan.js';
import { type Doc, endedBytes, paperDocument } from '../paper/document.js';
import { BODY, widthOfWords } from '../paper/words.js';
import { type Block, heading, paragraph, space } from '../sheets/block.js';
import { addSheet, type SheetSet, sheetSet, stampSheets } from '../sheets/sheet-set.js';
import { type Column, table } from '../sheets/table.js';
import type { Page, PageBlock, PageTable } from './page.js';
import { plotBlock } from './plot-paper.js';

/** Pages on paper, with the plan's name and hash on every sheet. */
export function pagesPdf(plan: Plan, title: string, pages: readonly Page[]): Uint8Array {
  const doc = paperDocument(`${plan.name}: ${title}`);
  const set = sheetSet(doc, plan.drawing.paper, { plan: plan.name, hash: plan.hash });
  for (const page of pages)
    addSheet(
      set,
      page.title,
      page.blocks.flatMap((b) => blocksOf(doc, set, b)),
    );
  stampSheets(set, set.titles.length);
  return endedBytes(doc);
}

function blocksOf(doc: Doc, set: SheetSet, block: PageBlock): Block[] {
  switch (block.kind) {
    case 'heading':
      return [space(2), heading(block.text)];
    case 'paragraph':
      return [...paragraph(doc, block.text, set.width), space(2)];
    case 'list':
      return [...block.items.flatMap((item) => paragraph(doc, item, set.width, '-')), space(2)];
    case 'table':
      return [...table(doc, paperColumns(doc, block, set.width), block.rows, set.width, true), space(3)];
    case 'plot':
      return [plotBlock(block.plot), space(2)];
  }
}

/** What columns beside the one of most words may take of the width. */
const OTHERS = 0.5;

/** Tables of the sheets break words early; the last column of words gets what its words need. */
function paperColumns(doc: Doc, { columns, rows }: PageTable, width: number): Column[] {
  const last = columns.findLastIndex((c) => c.align === 'left');
  return columns.map((c, k) => {
    if (k !== last || k === 0) return c;
    const widest = Math.max(...rows.map((r) => widthOfWords(doc, r[k]!, BODY)));
    return { ...c, least: Math.min(widest, width * OTHERS) };
  });
}
