import type { Vec2 } from '../../geometry/vec2.js';
import type { Doc } from '../paper/document.js';
import { BODY, KEY, LEADING, words, wrapped } from '../paper/words.js';

/** Something that stands on a sheet at full width and is never parted. */
export interface Block {
  /** mm. */
  readonly height: number;
  /** Draws it with its upper left corner at a point of the page, mm. */
  readonly draw: (doc: Doc, at: Vec2) => void;
  /** Stays on the page of the block after it. */
  readonly keep?: boolean;
  /** Stands above it again where it begins a further page: the head of a table. */
  readonly head?: Block;
}

/** Nothing, so many mm high. */
export const space = (height: number, keep = false): Block => ({ height, draw: () => {}, keep });

/** A heading; stays with what follows. */
export const heading = (line: string): Block => ({
  height: 7,
  keep: true,
  draw: (doc, [x, y]) => words(doc, line, x, y + 4.6, KEY, 'left', true),
});

/** Text broken into lines; the lines of one text stay together. `mark` stands before its first line. */
export function paragraph(doc: Doc, text: string, width: number, mark = ''): Block[] {
  const indent = mark === '' ? 0 : 5;
  const lines = wrapped(doc, text, width - indent, BODY);
  return lines.map((line, i) => ({
    height: LEADING,
    keep: i < lines.length - 1,
    draw: (page, [x, y]) => {
      if (i === 0 && mark !== '') words(page, mark, x, y + 3.2, BODY);
      words(page, line, x + indent, y + 3.2, BODY);
    },
  }));
}

/** Blocks below each other as one that is not parted. */
export const stacked = (blocks: readonly Block[]): Block => ({
  height: blocks.reduce((sum, b) => sum + b.height, 0),
  draw: (doc, [x, y]) => {
    let at = y;
    for (const b of blocks) {
      b.draw(doc, [x, at]);
      at += b.height;
    }
  },
});

/** Blocks beside each other, each so many mm further right. */
export const beside = (blocks: readonly { readonly x: number; readonly block: Block }[]): Block => ({
  height: Math.max(...blocks.map((b) => b.block.height)),
  draw: (doc, [x, y]) => {
    for (const b of blocks) b.block.draw(doc, [x + b.x, y]);
  },
});
