import type { Plan } from '../../params/plan.js';
import { type Doc, endedBytes, paperDocument } from '../paper/document.js';
import { type Block, heading, paragraph, space } from '../sheets/block.js';
import { addSheet, type SheetSet, sheetSet, stampSheets } from '../sheets/sheet-set.js';
import { table } from '../sheets/table.js';
import type { Page, PageBlock } from './page.js';

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
      return [...table(doc, block.columns, block.rows, set.width, true), space(3)];
    case 'picture':
      return [...paragraph(doc, `${block.title}: see ${block.file}`, set.width), space(2)];
  }
}
