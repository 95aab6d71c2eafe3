import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { DxfOptions } from '../../../src/export/dxf/drawing.js';
import { dxfText } from '../../../src/export/dxf/dxf.js';
import { outlineArea, outlineBounds, perimeter } from '../../../src/geometry/outline/measure.js';
import { convexOutline } from '../../support/outline-arbitrary.js';
import { tracedOf } from '../../support/trace-plan.js';

const CHOICES: readonly DxfOptions[] = (['mm', 'in'] as const).flatMap((units) =>
  (['r12', 'r2007'] as const).flatMap((version) =>
    (['polylines', 'lines_arcs'] as const).map((curves) => ({ units, version, curves }) as DxfOptions),
  ),
);

describe('what our own drawings say comes back', () => {
  test.each(CHOICES)('%j: any port has the same area, length and size', (options) => {
    fc.assert(
      fc.property(convexOutline, (outline) => {
        const text = dxfText(
          {
            layers: [
              { name: 'CUT', colour: 'white' },
              { name: 'NOTE', colour: 'red' },
            ],
            entities: [
              { kind: 'outline', layer: 'CUT', outline },
              { kind: 'text', layer: 'NOTE', at: [0, 0], words: 'port', height: 3 },
            ],
          },
          options,
        );
        const { units, version } = options;
        const unit = version === 'r12' ? `, unit: ${units}` : '';
        const { port } = tracedOf(`file: a.dxf, layer: CUT${unit}`, { 'a.dxf': text });
        const relative = (a: number, b: number) => Math.abs(a / b - 1);
        // Coordinates carry six decimals of the drawing's unit.
        const close = units === 'in' ? 1e-5 : 1e-6;
        expect(relative(outlineArea(port.outline), outlineArea(outline))).toBeLessThan(close);
        expect(relative(perimeter(port.outline), perimeter(outline))).toBeLessThan(close);
        const [a, b] = [outlineBounds(port.outline), outlineBounds(outline)];
        expect(a.to[0] - a.from[0]).toBeCloseTo(b.to[0] - b.from[0], 3);
        expect(a.to[1] - a.from[1]).toBeCloseTo(b.to[1] - b.from[1], 3);
      }),
      { numRuns: 25, seed: 21 },
    );
  });
});
