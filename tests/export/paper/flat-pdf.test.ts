import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { flatPdf } from '../../../src/export/paper/flat-pdf.js';
import { OVERLAP, PAPER, STRIP, tilingOf, WHITE } from '../../../src/export/paper/tiles.js';
import { flangesOf } from '../../../src/parts/flange/flange.js';
import { flatFlange } from '../../../src/parts/plates/flat-flange.js';
import { inlineFour, single } from '../../support/plan-fixture.js';
import { DOTS, drawPdf, longestRun, wordsOfPdf } from '../../support/read-pdf.js';
import { requireTool } from '../../support/tools.js';

const small = flatFlange(flangesOf(single())[0]!);
const long = flatFlange(flangesOf(inlineFour())[0]!);

// Page sizes: ISO 216 A4 210 x 297 mm; ANSI Y14.1 size A 8.5 x 11 in.
describe.each([
  ['a4', 210, 297],
  ['letter', 215.9, 279.4],
] as const)('on %s', (paper, short, tall) => {
  test('both rulers measure 100 mm within 0.1 mm on every page, and the paper is itself', (context) => {
    const pages = drawPdf(requireTool('pdftoppm', context), flatPdf(long, paper).bytes);
    expect(pages).toHaveLength(2);
    for (const page of pages) {
      const sides = [page.width / DOTS, page.height / DOTS].sort((a, b) => a - b);
      expect(Math.abs(sides[0]! - short)).toBeLessThan(0.2);
      expect(Math.abs(sides[1]! - tall)).toBeLessThan(0.2);
      const floor = page.height / DOTS - WHITE - STRIP.bottom;
      // The ticks at both ends are 0.15 mm wide and stand half of that beyond.
      expect(Math.abs(longestRun(page, 'x', [floor + 5, floor + 9]) - 100.15)).toBeLessThan(0.1);
      expect(Math.abs(longestRun(page, 'y', [WHITE + 6, WHITE + 8]) - 100.15)).toBeLessThan(0.1);
    }
  });

  test('a small part takes one page and is as large as it is', (context) => {
    const [page, ...more] = drawPdf(requireTool('pdftoppm', context), flatPdf(small, paper).bytes);
    expect(more).toEqual([]);
    const box = darkBox(
      page!.grey,
      page!.width,
      [WHITE + STRIP.left + 1, WHITE + STRIP.top + 1],
      [page!.width / DOTS - WHITE - 1, page!.height / DOTS - WHITE - STRIP.bottom - 1],
    );
    // A line 0.3 mm wide stands half its width beyond the edge on either side.
    expect(Math.abs(box[0]! - 0.3 - small.size[0])).toBeLessThan(0.25);
    expect(Math.abs(box[1]! - 0.3 - small.size[1])).toBeLessThan(0.25);
  });
});

test('the rulers are 100 mm in points, to the micrometre, in what the file itself says', () => {
  const text = Buffer.from(flatPdf(small, 'a4').bytes).toString('latin1');
  // Lengths are in mm under one scale of 72 / 25.4 points.
  expect(text).toMatch(/2\.834646 0 0 2\.834646 0 0 cm/);
  const strokes = [...text.matchAll(/([\d.-]+) ([\d.-]+) m\n([\d.-]+) ([\d.-]+) l\nS/g)].map((m) =>
    m.slice(1).map(Number),
  );
  const long = (k: 0 | 1) =>
    strokes.filter((s) => Math.abs(Math.abs(s[k + 2]! - s[k]!) - 100) < 1e-3 && s[1 - k] === s[3 - k]);
  expect(long(0)).toHaveLength(1);
  expect(long(1)).toHaveLength(1);
});

test('every page says what it is, of how many, and how to use it', (context) => {
  const pages = wordsOfPdf(requireTool('pdftotext', context), flatPdf(long, 'a4').bytes);
  expect(pages).toHaveLength(2);
  pages.forEach((words, i) => {
    expect(words).toContain('inline four: flange');
    expect(words).toContain(`page ${i + 1} of 2, tile A${i + 1}`);
    expect(words).toContain('100 mm across');
    expect(words).toContain('100 mm up');
    expect(words).toContain('Print at 100 %');
    expect(words).toContain('Tiles share 10 mm');
  });
});

test('the same part gives the same bytes, with no date of today', () => {
  const once = flatPdf(long, 'a4');
  expect(once).toMatchObject({ path: 'flange.pdf', kind: 'print' });
  expect(flatPdf(long, 'a4').bytes).toEqual(once.bytes);
  const dates = Buffer.from(once.bytes)
    .toString('latin1')
    .match(/\(D:\d{8}/g)!;
  expect(new Set(dates)).toEqual(new Set(['(D:19700101']));
});

test('tiles cover any drawing, share their strip, and are no more than needed (seed 48)', () => {
  const side = fc.double({ min: 5, max: 1500, noNaN: true });
  const at = fc.double({ min: -800, max: 800, noNaN: true });
  fc.assert(
    fc.property(side, side, at, at, fc.constantFrom('a4', 'letter'), (w, h, x, y, paper) => {
      const to = [x + w, y + h] as const;
      const { tiles, window, columns, rows, page, joints } = tilingOf([x, y], to, paper as keyof typeof PAPER);
      expect(tiles).toHaveLength(columns * rows);
      expect([...page].sort((a, b) => a - b)).toEqual(PAPER[paper as keyof typeof PAPER]);
      for (const k of [0, 1] as const) {
        const starts = [...new Set(tiles.map((t) => t.from[k]))].sort((a, b) => a - b);
        expect(starts[0]!).toBeLessThanOrEqual([x, y][k]! + 1e-6);
        expect(starts.at(-1)! + window[k]).toBeGreaterThanOrEqual(to[k] - 1e-6);
        starts.slice(1).forEach((s, i) => {
          expect(starts[i]! + window[k] - s).toBeCloseTo(OVERLAP, 6);
        });
        expect(k === 0 ? joints.x : joints.y).toHaveLength(starts.length - 1);
        if (starts.length > 1)
          expect((starts.length - 1) * (window[k] - OVERLAP) + OVERLAP).toBeLessThan([w, h][k]! + 1e-6);
      }
    }),
    { seed: 48, numRuns: 300 },
  );
});

/** Size of the box round all that is dark within a part of the page, mm. */
function darkBox(
  grey: Uint8Array,
  width: number,
  from: readonly [number, number],
  to: readonly [number, number],
): number[] {
  const xs: number[] = [];
  const ys: number[] = [];
  for (let y = Math.round(from[1] * DOTS); y < to[1] * DOTS; y++) {
    for (let x = Math.round(from[0] * DOTS); x < to[0] * DOTS; x++) {
      if (grey[y * width + x]! < 160) {
        xs.push(x);
        ys.push(y);
      }
    }
  }
  const span = (v: readonly number[]): number =>
    (v.reduce((a, b) => Math.max(a, b)) - v.reduce((a, b) => Math.min(a, b)) + 1) / DOTS;
  return [span(xs), span(ys)];
}
