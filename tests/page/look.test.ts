import { describe, expect, it } from 'vitest';
import { KINDS, markOf, TUBE_COLOURS } from '../../src/page/view/palette.js';
import { shownAngle, shownArea, shownLength } from '../../src/page/view/shown-number.js';
import { THEME_STYLE } from '../../src/page/view/theme-style.js';

/** Relative luminance of #rrggbb, WCAG 2.2. */
function luminance(colour: string): number {
  const parts = colour.match(/[0-9a-f]{2}/gi)!.map((p) => Number.parseInt(p, 16) / 255);
  const [r, g, b] = parts.map((c) => (c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4)) as [
    number,
    number,
    number,
  ];
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/** Contrast ratio of two colours, WCAG 2.2. */
function contrast(a: string, b: string): number {
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x) as [number, number];
  return (light + 0.05) / (dark + 0.05);
}

/** Variables of a block of the style that begins with a selector. */
function variables(selector: string): Record<string, string> {
  const block = THEME_STYLE.slice(THEME_STYLE.indexOf(selector)).match(/\{([^}]*)\}/)![1]!;
  return Object.fromEntries([...block.matchAll(/--(\w+): (#[0-9a-f]{6})/g)].map((m) => [m[1]!, m[2]!]));
}

describe('colours', () => {
  for (const theme of ['light', 'dark']) {
    const colours = variables(`[data-theme="${theme}"] {`);
    it(`of text stand out from a ${theme} ground by WCAG AA, 4.5 to 1`, () => {
      for (const on of [colours.ground!, colours.raised!]) {
        expect(contrast(colours.ink!, on)).toBeGreaterThan(7);
        for (const name of ['quiet', 'accent', 'good', 'bad', 'warn']) {
          expect(contrast(colours[name]!, on)).toBeGreaterThan(4.5);
        }
      }
    });

    it(`of tubes stand out from a ${theme} ground as parts of a picture must, 3 to 1`, () => {
      for (const colour of TUBE_COLOURS) expect(contrast(colour, colours.raised!)).toBeGreaterThan(3);
    });
  }

  it('and patterns never fall together in sixteen tubes, nor neighbours in either', () => {
    const marks = Array.from({ length: 16 }, (_, i) => markOf(i));
    expect(new Set(marks.map((m) => `${m.colour} ${m.pattern}`)).size).toBe(16);
    for (let i = 0; i + 1 < marks.length; i++) {
      expect(marks[i]!.colour).not.toBe(marks[i + 1]!.colour);
      if ((i + 1) % TUBE_COLOURS.length !== 0) expect(marks[i]!.pattern).not.toBe(marks[i + 1]!.pattern);
    }
  });

  it('belong to kinds that are listed once', () => {
    expect(new Set(KINDS.map((k) => k.kind)).size).toBe(KINDS.length);
  });
});

describe('numbers for people', () => {
  it('carry their unit, with inches behind for a plan in inches', () => {
    expect(shownLength(760, 'mm')).toBe('760.0 mm');
    expect(shownLength(-0.01, 'mm')).toBe('0.0 mm');
    expect(shownLength(63.5, 'in', 2)).toBe('63.50 mm (2.5000 in)');
    expect(shownArea(645.16, 'in')).toBe('645 mm² (1.000 in²)');
    expect(shownAngle(Math.PI / 4)).toBe('45.0°');
  });
});
