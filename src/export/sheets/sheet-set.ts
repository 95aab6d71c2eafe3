import { shortHash } from '../../params/text/plan-hash.js';
import { addPage, type Doc, onPageAgain } from '../paper/document.js';
import { PAPER, type PaperName } from '../paper/tiles.js';
import { BODY, words, wrapped } from '../paper/words.js';
import type { Block } from './block.js';

/** What every page says of where it belongs. */
export interface Stamp {
  readonly plan: string;
  readonly hash: string;
}

/** Sheets being drawn one after the other on lying paper, mm. */
export interface SheetSet {
  readonly doc: Doc;
  readonly stamp: Stamp;
  /** Width and height of the paper. */
  readonly page: readonly [number, number];
  /** Width between the margins. */
  readonly width: number;
  /** Title of every page so far. */
  readonly titles: string[];
}

const MARGIN = 12;

/** Where the blocks begin below the paper's upper edge, and end above its lower edge. */
const TOP = 24;
const BOTTOM = 20;

export function sheetSet(doc: Doc, paper: PaperName, stamp: Stamp): SheetSet {
  const [short, long] = PAPER[paper];
  return { doc, stamp, page: [long, short], width: long - 2 * MARGIN, titles: [] };
}

/** Height between head and foot of a page, mm. */
export const roomOf = (set: SheetSet): number => set.page[1] - TOP - BOTTOM;

/** Puts blocks on one page and, where they do not fit, on further ones. Throws RangeError for a block higher than a page. */
export function addSheet(set: SheetSet, title: string, blocks: readonly Block[]): void {
  pagesOf(blocks, roomOf(set)).forEach((page, i) => {
    set.titles.push(i === 0 ? title : `${title}, continued`);
    addPage(set.doc, set.page, () => {
      let y = TOP;
      for (const block of page) {
        set.doc.save().strokeColor('black').fillColor('black');
        block.draw(set.doc, [MARGIN, y]);
        set.doc.restore();
        y += block.height;
      }
    });
  });
}

/** What sums of heights may be off by, mm. */
const FITS = 1e-6;

/** Blocks parted into pages: what is kept with its next moves with it, a table's head stands again on every page. */
export function pagesOf(blocks: readonly Block[], room: number): Block[][] {
  const pages: Block[][] = [[]];
  let left = room;
  for (let i = 0; i < blocks.length; ) {
    const run = runFrom(blocks, i, room);
    const height = run.reduce((sum, b) => sum + b.height, 0);
    const fresh = pages.at(-1)!.length === 0;
    if (height > left + FITS && !fresh) {
      const head = run[0]!.head;
      pages.push(head && head.height + height <= room ? [head] : []);
      left = room - pages.at(-1)!.reduce((sum, b) => sum + b.height, 0);
    }
    if (height > left + FITS) throw new RangeError(`a block of ${height} mm is higher than a page of ${room} mm`);
    pages.at(-1)!.push(...run);
    left -= height;
    i += run.length;
  }
  return pages;
}

/** A block and all it is kept with, as far as a page holds them. */
function runFrom(blocks: readonly Block[], from: number, room: number): Block[] {
  const run = [blocks[from]!];
  let height = run[0]!.height;
  while (run.at(-1)!.keep && from + run.length < blocks.length) {
    const next = blocks[from + run.length]!;
    height += next.height;
    if (height > room) break;
    run.push(next);
  }
  return run;
}

/** Head and foot of every page, once it is known how many pages there are. */
export function stampSheets({ doc, stamp, page, titles }: SheetSet, count: number): void {
  const [width, height] = page;
  titles.forEach((title, i) => {
    onPageAgain(doc, i, () => {
      doc.strokeColor('black').fillColor('black').lineWidth(0.5);
      words(doc, title, MARGIN, 17, 5, 'left', true);
      doc
        .moveTo(MARGIN, 20)
        .lineTo(width - MARGIN, 20)
        .stroke();
      const foot = height - 15.5;
      doc
        .lineWidth(0.2)
        .moveTo(MARGIN, foot)
        .lineTo(width - MARGIN, foot)
        .stroke();
      words(doc, shortPlan(doc, stamp.plan, width / 2 - MARGIN - 25), MARGIN, foot + 5, BODY);
      words(doc, `plan ${shortHash(stamp.hash)}`, width / 2, foot + 5, BODY, 'center');
      words(doc, `page ${i + 1} of ${count}`, width - MARGIN, foot + 5, BODY, 'right');
    });
  });
}

/** The plan's name on one line; the cover has all of it. */
function shortPlan(doc: Doc, plan: string, width: number): string {
  const [first, ...rest] = wrapped(doc, plan, width, BODY);
  return rest.length === 0 ? first! : `${first} ...`;
}
