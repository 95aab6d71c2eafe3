import { describe, expect, it } from 'vitest';
import { collectorFigure } from '../../../src/export/book/collector-figure.js';
import type { Collector } from '../../../src/parts/collector/collector.js';
import { collectorGeometry } from '../../../src/parts/collector/merge-geometry.js';
import { mergePlan, TUBE, VENTURI } from '../../support/merge-plan.js';

const collector = (inlets: number, outlet?: typeof VENTURI): Collector => {
  const plan = mergePlan(inlets, outlet === undefined ? {} : { outlet });
  return { plan, geometry: collectorGeometry(plan, TUBE) } as Collector;
};

const figure = (c: Collector, units: 'mm' | 'in' = 'mm'): string =>
  collectorFigure(
    c,
    c.geometry.cuts.map((_, i) => `cyl ${9 - i}`),
    units,
  ).html;

/** Every text of a figure with its place. */
const textsOf = (svg: string) =>
  [...svg.matchAll(/<text[^>]* x="([-\d.]+)" y="([-\d.]+)"[^>]*>([^<]*)</g)].map((m) => ({
    x: Number(m[1]),
    y: Number(m[2]),
    words: m[3]!,
  }));

describe.each([2, 3, 4, 6])('a collector of %i inlets in the book', (inlets) => {
  const c = collector(inlets);
  const g = c.geometry;
  const html = figure(c);

  it('has the lengths, the outlet and the ring of its geometry', () => {
    const words = textsOf(html).map((t) => t.words);
    for (const mm of [g.mergeLength, g.coneLength, g.tail, g.totalLength])
      expect(words).toContain(`${mm.toFixed(1)} mm`);
    expect(words).toContain(`⌀ ${(2 * g.outletOutside).toFixed(1)} mm`);
    expect(html).toContain(`ring ⌀ ${(2 * g.ringRadius).toFixed(1)} mm`);
  });

  it('has every inlet with its number and what arrives there, apart from each other and on one ring', () => {
    const end = html.split('</svg>')[1]!;
    const circles = [...end.matchAll(/<circle class="body" cx="([\d.]+)" cy="([\d.]+)" r="([\d.]+)"/g)];
    expect(circles).toHaveLength(inlets);
    const at = circles.map((m) => [Number(m[1]), Number(m[2])] as const);
    const ring = /<circle class="centre" cx="([\d.]+)" cy="([\d.]+)" r="([\d.]+)"/.exec(end)!;
    for (const [x, y] of at) {
      expect(Math.hypot(x - Number(ring[1]), y - Number(ring[2]))).toBeCloseTo(Number(ring[3]), 1);
    }
    const texts = textsOf(end);
    at.forEach(([x, y], i) => {
      expect(texts.find((t) => t.words === String(i + 1))).toMatchObject({ x, y });
      expect(texts.some((t) => t.words === `cyl ${9 - i}`)).toBe(true);
    });
  });

  it('keeps all its words on the picture', () => {
    for (const svg of html.split('</svg>').slice(0, 2)) {
      const [width, height] = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg)!.slice(1).map(Number);
      for (const { x, y } of textsOf(svg)) {
        expect(x).toBeGreaterThanOrEqual(0);
        expect(x).toBeLessThan(width!);
        expect(y).toBeLessThan(height!);
      }
    }
  });
});

describe('a venturi in the book', () => {
  const c = collector(4, VENTURI);

  it('has its throat and diffuser, whose lengths add up', () => {
    const t = c.geometry.throat!;
    const html = figure(c);
    expect(html).toContain(`${(t.to - t.from).toFixed(1)} mm`);
    expect(html).toContain(`${(t.diffuserEnd - t.to).toFixed(1)} mm`);
  });

  it('speaks in inches for a plan in inches', () => {
    const html = figure(c, 'in');
    expect(html).toContain(`${(c.geometry.totalLength / 25.4).toFixed(3)} in`);
    expect(html).not.toMatch(/\d mm/);
  });
});
