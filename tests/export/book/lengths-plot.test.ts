import { describe, expect, it } from 'vitest';
import { lengthsPlot, signed } from '../../../src/export/book/lengths-plot.js';

const tubes = [
  { name: 'cylinder 1', length: 760.4, target: 760 },
  { name: 'cylinder 2', length: 757, target: 760 },
];

describe('the plot of lengths', () => {
  const text = lengthsPlot('primaries', tubes, 1, 'mm').html;
  const [whole, off] = text.split('</svg>');

  it('draws bars from zero in the ratio of the lengths', () => {
    const bars = [...whole!.matchAll(/class="bar" x="([\d.]+)" y="[\d.]+" width="([\d.]+)"/g)].map((m) => Number(m[2]));
    expect(bars[0]! / bars[1]!).toBeCloseTo(760.4 / 757, 3);
  });

  it('draws the tolerance large enough to see and marks what is outside otherwise', () => {
    const band = /class="band" x="([\d.]+)" y="\d+" width="([\d.]+)"/.exec(off!)!;
    expect(Number(band[2])).toBeGreaterThan(40);
    const marks = [...off!.matchAll(/class="(mark(?: out)?)" d="M([\d.]+)/g)];
    expect(marks.map((m) => m[1])).toEqual(['mark', 'mark out']);
    const [left, right] = [Number(band[1]), Number(band[1]) + Number(band[2])];
    expect(Number(marks[0]![2])).toBeGreaterThan(left);
    expect(Number(marks[0]![2])).toBeLessThan(right);
    expect(Number(marks[1]![2]) + 6).toBeLessThan(left);
  });

  it('says every number too', () => {
    for (const words of ['760.400 mm', '757.000 mm', '+0.400', '−3.000']) expect(text).toContain(words);
    expect(text).toMatch(/role="img" aria-label="Difference of 2 tubes/);
  });

  it('says them in inches too for a plan in inches, the difference in inches alone', () => {
    const inch = lengthsPlot('primaries', tubes, 1, 'in').html;
    for (const words of ['760.400 mm (29.93701 in)', '+0.01575', '−0.11811', 'target, in'])
      expect(inch).toContain(words);
  });

  it('never says minus nought', () => {
    expect(signed(-1e-13, 'mm')).toBe('0.000');
  });
});
