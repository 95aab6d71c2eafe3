import { describe, expect, test } from 'vitest';
import { LINE_STYLE, patternPdf } from '../../../src/export/paper/pattern-pdf.js';
import { STRIP, WHITE } from '../../../src/export/paper/tiles.js';
import { clashesOf, DOTS, drawPdf, type PageImage, wordBoxesOfPdf, wordsOfPdf } from '../../support/read-pdf.js';
import { sector, waveWrap } from '../../support/sheet-samples.js';
import { requireTool } from '../../support/tools.js';

const STAMP = { plan: 'bench mule', hash: '0123456789abcdef'.repeat(4) };
const wave = waveWrap();

/** Girth of a tube of 42.4 mm. */
const GIRTH = Math.PI * 42.4;

describe.each(['a4', 'letter'] as const)('on %s', (paper) => {
  test('a wrap is as wide as the tube is round and as high as drawn, within 0.1 mm on paper', (context) => {
    const [page, ...more] = drawPdf(requireTool('pdftoppm', context), patternPdf(wave, paper, STAMP).bytes);
    expect(more).toEqual([]);
    const [width, height] = [page!.width / DOTS, page!.height / DOTS];
    // The drawing stands in the middle of its room; 25 mm and more are left for what is said above it.
    const x = [WHITE + STRIP.left + 1, width - WHITE - 1] as const;
    const y = [WHITE + STRIP.top + 25, height - WHITE - STRIP.bottom - 1] as const;
    const floor = thickLines(page!, 'y', (x[0] + x[1]) / 2, y).at(-1)!;
    const sides = thickLines(page!, 'x', floor - 10, x);
    expect(sides).toHaveLength(2);
    expect(Math.abs(sides[1]! - sides[0]! - GIRTH)).toBeLessThan(0.1);
    const up = thickLines(page!, 'y', sides[0]! + 2, y);
    expect(up).toHaveLength(2);
    const crest = 60 + 8.78 * Math.cos((2 * Math.PI * 2) / GIRTH);
    expect(Math.abs(up[1]! - up[0]! - crest)).toBeLessThan(0.1);
  });

  test('both rulers are there and say so; the words stand clear of each other', (context) => {
    const { bytes } = patternPdf(sector(), paper, STAMP);
    const boxes = wordBoxesOfPdf(requireTool('pdftotext', context), bytes);
    expect(boxes.length).toBeGreaterThan(1);
    for (const page of boxes) expect(clashesOf(page)).toEqual([]);
    wordsOfPdf(requireTool('pdftotext', context), bytes).forEach((page, i) => {
      expect(page).toMatch(new RegExp(`page ${i + 1} of ${boxes.length}, tile [A-Z]\\d`));
      for (const words of ['100 mm across', '100 mm up', 'plan 0123456789ab', 'bench mule', 'Tiles share 10 mm']) {
        expect(page).toContain(words);
      }
    });
  });
});

test('in the file itself the girth is 377.585 points at 72 points an inch', () => {
  const text = Buffer.from(patternPdf(wave, 'a4', STAMP).bytes).toString('latin1');
  const scale = Number(/([\d.]+) 0 0 \1 0 0 cm/.exec(text)![1]);
  expect(scale).toBeCloseTo(72 / 25.4, 5);
  const sides = [...text.matchAll(/^([-\d.]+) ([-\d.]+) l$/gm)].map((m) => Number(m[1]) * scale);
  // 133.2035 mm x 72 / 25.4, worked out by hand.
  expect(sides.some((x) => Math.abs(x - 377.585) < 0.01)).toBe(true);
});

test('every kind of line has a look of its own without colour, and is explained', (context) => {
  const looks = Object.values(LINE_STYLE).map((dash) => dash.join(' '));
  expect(new Set(looks).size).toBe(looks.length);
  const { bytes } = patternPdf(wave, 'a4', STAMP);
  const text = Buffer.from(bytes).toString('latin1');
  for (const kind of ['quarter', 'tab'] as const) expect(text).toContain(`[${LINE_STYLE[kind].join(' ')}] 0 d`);
  const [page] = wordsOfPdf(requireTool('pdftotext', context), bytes);
  for (const words of ['reference', '90 deg', 'dash-dot: every 90 degrees', 'clocking mark, the tab under']) {
    expect(page!.replace(/\s+/g, ' ')).toContain(words);
  }
});

test('the same pattern gives the same bytes under its own name', () => {
  const once = patternPdf(wave, 'a4', STAMP);
  expect(once).toMatchObject({ path: 'patterns/wave.pdf', kind: 'print' });
  expect(Buffer.compare(patternPdf(waveWrap(), 'a4', STAMP).bytes, once.bytes)).toBe(0);
});

/** Middles of the lines at least 0.3 mm wide that a row or column of the page crosses, mm from its edge: what is cut along. */
function thickLines(page: PageImage, along: 'x' | 'y', at: number, [from, to]: readonly [number, number]): number[] {
  const line = Math.round(at * DOTS);
  const middles: number[] = [];
  let run = 0;
  for (let i = Math.round(from * DOTS); i <= to * DOTS; i++) {
    const dark = page.grey[along === 'x' ? line * page.width + i : i * page.width + line]! < 160;
    if (!dark && run >= 0.3 * DOTS) middles.push((i - run / 2) / DOTS);
    run = dark ? run + 1 : 0;
  }
  return middles;
}
