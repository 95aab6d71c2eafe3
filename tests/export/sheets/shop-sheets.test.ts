import { spawnSync } from 'node:child_process';
import { beforeAll, describe, expect, test } from 'vitest';
import type { SheetInput } from '../../../src/export/sheets/sheet-input.js';
import { shopSheets } from '../../../src/export/sheets/shop-sheets.js';
import { degrees, wrapTwoPi } from '../../../src/geometry/angle.js';
import { clashesOf, type PageWords, type WordBox, wordBoxesOfPdf, wordsOfPdf } from '../../support/read-pdf.js';
import { sheetInputOf } from '../../support/sheet-input.js';
import { plainBill, sector, waveWrap } from '../../support/sheet-samples.js';
import { routedStarter } from '../../support/starter.js';
import { requireTool } from '../../support/tools.js';

/** Nine points, the least that is read at arm's length (common practice, no source), in mm. */
const NINE_POINTS = (9 * 25.4) / 72;

describe.each(['inline-four', 'v8-full', 'inline-four-421', 'inline-six-turbo'])('shop sheets of %s', (name) => {
  let input: SheetInput;
  let bytes: Uint8Array;
  beforeAll(() => {
    const plain = sheetInputOf(routedStarter(name));
    input = { ...plain, bill: plainBill(plain.cuts), patterns: [waveWrap(), sector()] };
    bytes = shopSheets(input).bytes;
  });

  test('no words lie on each other or beyond the page; each page has its number, its count and the hash', (context) => {
    const pages: PageWords[] = wordBoxesOfPdf(requireTool('pdftotext', context), bytes);
    expect(pages.length).toBeGreaterThan(10);
    pages.forEach((page, i) => {
      expect(clashesOf(page), `page ${i + 1}`).toEqual([]);
      const line = lineOf(page);
      expect(line).toMatch(new RegExp(`page ${i + 1} of ${pages.length}\\b`));
      expect(line).toContain(input.plan.hash.slice(0, 12));
      expect(line).toContain(input.plan.name.split(' ')[0]);
    });
  });

  test('every piece, joint and length stands on the sheet of its tube, to the printed digit', (context) => {
    const pages = wordBoxesOfPdf(requireTool('pdftotext', context), bytes);
    for (const tube of input.cuts) {
      const own = pages.filter((p) => lineOf(p).startsWith(`Tube: ${tube.name}`));
      expect(own.length).toBeGreaterThan(1);
      for (const c of tube.pieces) {
        const row = rowOf(own, c.piece.name);
        const bend = c.angle === null ? [] : [degrees(c.angle), c.clr!, c.insideArc!, c.centreArc!, c.outsideArc!];
        for (const v of [c.length, c.piece.toRun, ...bend]) expect(row, c.piece.name).toContain(v.toFixed(1));
      }
      for (const j of tube.joints) {
        const row = rowOf(own, j.name);
        expect(row, j.name).toContain(j.run.toFixed(1));
        if (j.clocking === null) continue;
        const turn = degrees(wrapTwoPi(j.clocking));
        const off = (word: string): number =>
          Math.min(Math.abs(Number(word) - turn), Math.abs(Number(word) + 360 - turn));
        // To the printed digit; a turn of 359.96 degrees prints as none.
        expect(Math.min(...row.filter((w) => /^\d+\.\d$/.test(w)).map(off)), `${j.name}: ${row}`).toBeLessThan(0.0501);
      }
      expect(own.map(lineOf).join(' ')).toContain(`${tube.length.toFixed(2)} mm`);
    }
  });

  test('the summary has the verdict and every length; nothing is smaller than nine points', (context) => {
    const [first] = wordsOfPdf(requireTool('pdftotext', context), bytes);
    expect(first).toContain(input.verdict);
    for (const p of input.primaries) expect(first).toContain(p.length.toFixed(2));
    const sizes = [
      ...Buffer.from(bytes)
        .toString('latin1')
        .matchAll(/\/F\d+ ([\d.]+) Tf/g),
    ].map((m) => Number(m[1]));
    expect(sizes.length).toBeGreaterThan(500);
    expect(Math.min(...sizes)).toBeGreaterThanOrEqual(NINE_POINTS);
    expect(Math.max(...sizes)).toBeGreaterThan(4);
  });

  test('the same header gives the same bytes: lines and words, no pictures of dots, no date of today', (context) => {
    expect(Buffer.compare(shopSheets(input).bytes, bytes)).toBe(0);
    const text = Buffer.from(bytes).toString('latin1');
    expect(text).not.toMatch(/\/Subtype\s*\/Image/);
    expect(new Set(text.match(/\(D:\d{8}/g))).toEqual(new Set(['(D:19700101']));
    const info = spawnSync(requireTool('pdfinfo', context), ['-'], { input: bytes, encoding: 'utf8' });
    expect([info.status, info.stderr]).toEqual([0, '']);
    expect(info.stdout).toContain(`${input.plan.name}: shop sheets`);
  });
});

const lineOf = ({ words }: PageWords): string => words.map((w) => w.word).join(' ');

/** The words of a table's row, by the name that begins it at the left margin. A row is 7 mm high and more. */
function rowOf(pages: readonly PageWords[], name: string): string[] {
  for (const { words } of pages) {
    const first = words.find((w) => w.word === name && w.from[0] < 42);
    if (first === undefined) continue;
    const middle = (w: WordBox): number => (w.from[1] + w.to[1]) / 2;
    return words.filter((w) => Math.abs(middle(w) - middle(first)) < 9.5).map((w) => w.word);
  }
  throw new Error(`no row of ${name}`);
}
