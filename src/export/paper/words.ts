import { asciiWords } from '../dxf/dxf.js';
import type { Doc } from './document.js';

/** Height of type that is read, mm: 9 points. */
export const BODY = 3.2;

/** Height of the type of the numbers that matter most, mm: 12 points. */
export const KEY = 4.25;

/** Distance of the lines of body type, mm. */
export const LEADING = 4.4;

export type Align = 'left' | 'center' | 'right';

function setType(doc: Doc, size: number, bold: boolean): Doc {
  return doc.font(bold ? 'Helvetica-Bold' : 'Helvetica').fontSize(size);
}

/** Width of a line of words, mm. */
export const widthOfWords = (doc: Doc, line: string, size: number, bold = false): number =>
  setType(doc, size, bold).widthOfString(asciiWords(line));

/** A line of words on a baseline, mm; signs beyond printable ASCII are replaced. */
export function words(
  doc: Doc,
  line: string,
  x: number,
  y: number,
  size: number,
  align: Align = 'left',
  bold = false,
): void {
  const plain = asciiWords(line);
  setType(doc, size, bold);
  const back = align === 'left' ? 0 : doc.widthOfString(plain) * (align === 'right' ? 1 : 0.5);
  doc.text(plain, x - back, y, { lineBreak: false, baseline: 'alphabetic' });
}

/** Words broken into lines no wider than `width` mm; a single word wider than that is broken within. */
export function wrapped(doc: Doc, text: string, width: number, size: number, bold = false): string[] {
  setType(doc, size, bold);
  const fits = (line: string): boolean => doc.widthOfString(line) <= width;
  const lines: string[] = [];
  let line = '';
  for (const word of asciiWords(text).trim().split(' ')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (fits(longer)) {
      line = longer;
      continue;
    }
    if (line !== '') lines.push(line);
    line = word;
    while (!fits(line) && line.length > 1) {
      const most = mostThatFits(line, fits);
      lines.push(line.slice(0, most));
      line = line.slice(most);
    }
  }
  return [...lines, line];
}

function mostThatFits(word: string, fits: (line: string) => boolean): number {
  let most = word.length - 1;
  while (most > 1 && !fits(word.slice(0, most))) most--;
  return most;
}
