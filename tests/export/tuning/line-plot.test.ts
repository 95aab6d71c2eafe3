import { describe, expect, test } from 'vitest';
import { type LinePlot, linePlot } from '../../../src/export/tuning/line-plot.js';
import { axisFor, ticksOf } from '../../../src/export/tuning/plot-axis.js';

const PLOT: LinePlot = {
  title: 'pressure <here> & there',
  x: { label: 'Engine speed', unit: 'rev/min' },
  y: { label: 'Pressure', unit: 'kPa' },
  lines: [
    {
      label: 'a < b',
      points: [
        [1000, 2],
        [2000, -3],
      ],
    },
    {
      label: 'c',
      points: [
        [1000, 0],
        [2000, 8],
      ],
    },
  ],
  levels: [{ at: 0, label: 'nothing' }],
  bands: [{ from: 1200, to: 1500, label: 'overlap' }],
};

describe('a plot', () => {
  const svg = linePlot(PLOT);

  test('escapes words, names axes with units and every line', () => {
    expect(svg).not.toMatch(/<here>/);
    expect(svg).toContain('pressure &lt;here&gt; &amp; there');
    for (const words of ['Engine speed, rev/min', 'Pressure, kPa', 'a &lt; b', '>c<', 'overlap', 'nothing']) {
      expect(svg).toContain(words);
    }
  });

  test('tells lines apart by dash as well as colour', () => {
    const strokes = [...svg.matchAll(/<polyline fill="none" ([^/]*?) stroke-linejoin/g)].map((m) => m[1]);
    expect(new Set(strokes).size).toBe(2);
    const dashes = strokes.map((s) => /dasharray="([^"]*)"/.exec(s!)?.[1] ?? '');
    expect(new Set(dashes).size).toBe(2);
  });

  test('takes the colour of the words around it, and its own where it stands alone', () => {
    expect(svg).toContain('fill="currentColor"');
    expect(svg).not.toContain('<style>');
    expect(linePlot(PLOT, true)).toContain('prefers-color-scheme:dark');
  });

  test('is the same every time, its numbers finite', () => {
    expect(linePlot(PLOT)).toBe(svg);
    expect(svg).not.toMatch(/NaN|Infinity/);
    const places = [...svg.matchAll(/points="([^"]+)"/g)].flatMap((m) => m[1]!.split(/[ ,]/).map(Number));
    expect(Math.min(...places)).toBeGreaterThanOrEqual(0);
    expect(Math.max(...places)).toBeLessThanOrEqual(820);
  });

  test('refuses nothing and no number', () => {
    expect(() => linePlot({ ...PLOT, lines: [] })).toThrow(/nothing to plot/);
    expect(() => linePlot({ ...PLOT, lines: [{ label: '', points: [[0, Number.NaN]] }] })).toThrow(RangeError);
  });
});

describe('an axis', () => {
  test.each([
    [[0, 7.3], 'round'],
    [[-0.031, 0.002], 'round'],
    [[3000, 7500], 'tight'],
    [[5, 5], 'tight'],
  ] as const)('of %j (%s) holds its values, ticks 1, 2 or 5 times a power of ten apart', (values, ends) => {
    const axis = axisFor(values, 0, 100, ends);
    expect(axis.from).toBeLessThanOrEqual(values[0]);
    expect(axis.to).toBeGreaterThanOrEqual(values[1]);
    expect(axis.place(axis.from)).toBeCloseTo(0, 9);
    expect(axis.place(axis.to)).toBeCloseTo(100, 9);
    const lead = axis.step / 10 ** Math.floor(Math.log10(axis.step) + 1e-9);
    expect([1, 2, 5].some((n) => Math.abs(n - lead) < 1e-9)).toBe(true);
    const ticks = ticksOf(axis);
    expect(ticks.length).toBeGreaterThan(2);
    expect(ticks.length).toBeLessThan(12);
    for (const { value, label } of ticks) expect(Number(label)).toBeCloseTo(value, 9);
  });
});
