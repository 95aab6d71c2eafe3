import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type Block, space } from '../../../src/export/sheets/block.js';
import { placeLabels } from '../../../src/export/sheets/place-labels.js';
import { bothSenses, fixed, lengthLines, lengthWords } from '../../../src/export/sheets/sheet-numbers.js';
import { pagesOf } from '../../../src/export/sheets/sheet-set.js';
import { spreadApart } from '../../../src/export/sheets/spread.js';

describe('numbers on sheets', () => {
  test('are rounded, never -0, and refuse what is no number', () => {
    expect([fixed(1.25, 1), fixed(-0.04, 1), fixed(-0.06, 1)]).toEqual(['1.3', '0.0', '-0.1']);
    expect(() => fixed(Number.NaN, 1)).toThrow(RangeError);
  });

  // The inch is 25.4 mm exactly: international yard and pound agreement, 1959.
  test('of inch plans stand in mm and inches', () => {
    expect(lengthLines(25.4, 1, 'mm')).toEqual(['25.4']);
    expect(lengthLines(44.45, 2, 'in')).toEqual(['44.45', '1.7500 in']);
    expect(lengthWords(838.2, 1, 'in')).toBe('838.2 mm (33.000 in)');
  });

  test('turn both ways to a whole turn, and nothing is no turn', () => {
    expect(bothSenses(Math.PI / 2)).toEqual({ clockwise: 90, anticlockwise: 270 });
    expect(bothSenses(-Math.PI / 6)).toEqual({ clockwise: 330, anticlockwise: 30 });
    expect(bothSenses(-1e-9)).toEqual({ clockwise: 0, anticlockwise: 0 });
  });
});

const width = fc.double({ min: 1, max: 30, noNaN: true });
const at = fc.double({ min: -20, max: 320, noNaN: true });

test('labels along a line stay in order, within it and clear of each other; alone they stay where they want', () => {
  expect(spreadApart([{ at: 50, width: 10 }], 0, 100)).toEqual([50]);
  expect(
    spreadApart(
      [
        { at: 50, width: 10 },
        { at: 50, width: 10 },
      ],
      0,
      100,
    ),
  ).toEqual([45, 55]);
  expect(() => spreadApart([{ at: 5, width: 101 }], 0, 100)).toThrow(RangeError);
  fc.assert(
    fc.property(fc.array(fc.tuple(at, width), { minLength: 1, maxLength: 10 }), (wishes) => {
      const wanted = [...wishes].sort((a, b) => a[0] - b[0]).map(([a, w]) => ({ at: a, width: w }));
      const places = spreadApart(wanted, 0, 300);
      const [starts, ends] = [-1, 1].map((s) => places.map((p, i) => p + (s * wanted[i]!.width) / 2));
      expect(starts![0]!).toBeGreaterThanOrEqual(-1e-9);
      expect(ends!.at(-1)!).toBeLessThanOrEqual(300 + 1e-9);
      starts!.slice(1).forEach((s, i) => {
        expect(s).toBeGreaterThanOrEqual(ends![i]! - 1e-9);
      });
    }),
  );
});

test('labels near one point keep clear of each other and within their box', () => {
  const wishes = Array.from({ length: 8 }, () => ({ at: [50, 50] as const, size: [8, 3.2] as const, onPoint: false }));
  const places = placeLabels(wishes, [{ at: [50, 50], radius: 4 }], [0, 0], [100, 100]);
  places.forEach(([x, y], i) => {
    expect(Math.min(x, y)).toBeGreaterThan(0);
    for (const [u, v] of places.slice(0, i)) expect(Math.abs(u - x) >= 8 || Math.abs(v - y) >= 3.2).toBe(true);
  });
});

describe('blocks on pages', () => {
  const head: Block = { ...space(5), keep: true };
  const rows = Array.from({ length: 9 }, (): Block => ({ ...space(10), head }));

  test('fill pages in order, a table has its head on each, none is higher than its room', () => {
    const pages = pagesOf([head, ...rows], 40);
    expect(pages.map((p) => p.length)).toEqual([4, 4, 4]);
    expect(pages.every((p) => p[0] === head)).toBe(true);
    for (const p of pages) expect(p.reduce((sum, b) => sum + b.height, 0)).toBeLessThanOrEqual(40);
  });

  test('what is kept with its next moves with it', () => {
    const pages = pagesOf([space(30), space(8, true), space(8)], 40);
    expect(pages.map((p) => p.length)).toEqual([1, 2]);
  });

  test('a block higher than a page is refused', () => {
    expect(() => pagesOf([space(41)], 40)).toThrow(/higher than a page/);
  });
});
