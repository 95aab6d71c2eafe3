import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type PatternPicture, patternTiles, SQUARE, TILE } from '../../../src/export/book/pattern-tiles.js';
import { PAPER } from '../../../src/export/paper/tiles.js';

const picture = (width: number, height: number): PatternPicture => ({
  title: 'cone <of> the collector',
  words: ['1.6 mm plate'],
  svg: `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}"><title>x</title><path class="own" d=""/></svg>`,
  from: [5, 5],
  to: [5 + width, 5 + height],
  stamp: 'bench mule, plan 012345',
});

/** What a tile shows of the pattern: window on the page and in the pattern, as numbers. */
function windowOf(svg: string): { width: number; height: number; x: number; y: number; wide: number; high: number } {
  const [, width, height, x, y, wide, high] =
    /<svg x="1" y="10" width="([\d.]+)" height="([\d.]+)" viewBox="([-\d.]+) ([-\d.]+) ([\d.]+) ([\d.]+)"/
      .exec(svg)!
      .map(Number);
  return { width: width!, height: height!, x: x!, y: y!, wide: wide!, high: high! };
}

const sizes = fc.tuple(fc.double({ min: 10, max: 900, noNaN: true }), fc.double({ min: 10, max: 900, noNaN: true }));

describe('a pattern on pages', () => {
  it('has pages that fit the white of A4 and of Letter, 10 mm all round', () => {
    for (const [width, height] of Object.values(PAPER)) {
      expect(TILE.width).toBeLessThanOrEqual(width - 20);
      expect(TILE.height).toBeLessThanOrEqual(height - 20);
    }
  });

  it('is at 1:1: the window on the page is as large as what it shows', () => {
    fc.assert(
      fc.property(sizes, ([w, h]) => {
        for (const { svg } of patternTiles(picture(w, h))) {
          const shown = windowOf(svg);
          expect(shown.width).toBe(shown.wide);
          expect(shown.height).toBe(shown.high);
          expect(svg).toContain(
            `width="${TILE.width}mm" height="${TILE.height}mm" viewBox="0 0 ${TILE.width} ${TILE.height}"`,
          );
        }
      }),
    );
  });

  it('is whole: together the pages show all of it, neighbours share a strip', () => {
    fc.assert(
      fc.property(sizes, ([w, h]) => {
        const tiles = patternTiles(picture(w, h)).map((t) => windowOf(t.svg));
        const turned = /rotate\(90\)/.test(patternTiles(picture(w, h))[0]!.svg);
        const [wide, high] = turned ? [h + 6, w + 6] : [w + 6, h + 6];
        const across = tiles.filter((t) => t.y === 0).sort((a, b) => a.x - b.x);
        const down = tiles.filter((t) => t.x === 0).sort((a, b) => a.y - b.y);
        expect(tiles.length).toBe(across.length * down.length);
        expect(across[0]!.x).toBe(0);
        across.slice(1).forEach((t, i) => {
          expect(across[i]!.x + across[i]!.wide - t.x).toBeCloseTo(10, 3);
        });
        down.slice(1).forEach((t, i) => {
          expect(down[i]!.y + down[i]!.high - t.y).toBeCloseTo(10, 3);
        });
        expect(across.at(-1)!.x + across.at(-1)!.wide).toBeCloseTo(wide, 3);
        expect(down.at(-1)!.y + down.at(-1)!.high).toBeCloseTo(high, 3);
      }),
    );
  });

  it('is turned where that takes fewer pages', () => {
    expect(patternTiles(picture(180, 180)).length).toBe(1);
    const lying = patternTiles(picture(100, 183));
    const upright = patternTiles(picture(183, 100));
    expect(lying.length).toBe(upright.length);
    expect(lying.length).toBe(1);
  });

  it('has a square to measure on every page, and its words escaped', () => {
    for (const { svg } of patternTiles(picture(700, 500))) {
      expect(svg).toMatch(new RegExp(`<rect [^>]*width="${SQUARE}" height="${SQUARE}"`));
      expect(svg).toContain('cone &lt;of&gt; the collector, page ');
      expect(svg).toContain('bench mule, plan 012345');
      expect(svg).toContain('1.6 mm plate');
    }
  });
});
