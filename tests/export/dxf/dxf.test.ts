import { describe, expect, test } from 'vitest';
import type { DxfDrawing, DxfEntity } from '../../../src/export/dxf/drawing.js';
import { asciiWords, dxfText } from '../../../src/export/dxf/dxf.js';
import { circleOutline, polygonOutline, rectangleOutline } from '../../../src/geometry/outline/make.js';
import { readDxf } from '../../support/read-dxf.js';
import { requireTool } from '../../support/tools.js';

const on = (...entities: DxfEntity[]): DxfDrawing => ({ layers: [{ name: 'CUT', colour: 'white' }], entities });
const bytes = (drawing: DxfDrawing): Uint8Array => new TextEncoder().encode(dxfText(drawing));
const layer = 'CUT';

test('the same drawing twice is the same file, whatever was drawn between', () => {
  const drawing = on({ layer, kind: 'outline', outline: rectangleOutline(44, 36, 18) });
  const first = dxfText(drawing);
  dxfText(on({ layer, kind: 'line', from: [0, 0], to: [1, 1] }));
  expect(dxfText(drawing)).toBe(first);
});

describe('refused loudly', () => {
  const circle = (diameter: number): DxfEntity => ({ layer, kind: 'circle', centre: [0, 0], diameter });
  test.each([
    ['NaN', on({ layer, kind: 'point', at: [Number.NaN, 0] }), /NaN/],
    ['infinity', on({ layer, kind: 'line', from: [0, 0], to: [Number.POSITIVE_INFINITY, 0] }), /Infinity/],
    ['a circle of nothing', on(circle(0)), /radius/],
    [
      'an outline that crosses itself',
      on({
        layer,
        kind: 'outline',
        outline: polygonOutline([
          [0, 0],
          [9, 9],
          [9, 0],
          [0, 8],
        ]),
      }),
      /meet/,
    ],
    ['accents', on({ layer, kind: 'text', at: [0, 0], words: 'Krümmer', height: 4 }), /ASCII/],
    ['two lines of words', on({ layer, kind: 'text', at: [0, 0], words: 'a\nb', height: 4 }), /ASCII/],
    ['control codes', on({ layer, kind: 'text', at: [0, 0], words: '45%%d', height: 4 }), /control/],
    ['a layer that is not listed', on({ layer: 'ELSEWHERE', kind: 'point', at: [0, 0] }), /not listed/],
    ['a badly named layer', { layers: [{ name: 'cut outer', colour: 'white' }], entities: [] }, /cut outer/],
    [
      'a layer listed twice',
      {
        layers: [
          { name: 'A', colour: 'red' },
          { name: 'A', colour: 'red' },
        ],
        entities: [],
      },
      /twice/,
    ],
    ['nothing at all', on(), /something/],
  ] as const)('%s', (_, drawing, reason) => {
    expect(() => dxfText(drawing as DxfDrawing)).toThrow(reason);
  });
});

test('no number carries rounding dust, an exponent or a minus zero', () => {
  const text = dxfText(
    on(
      { layer, kind: 'line', from: [6.1e-16, -1e-9], to: [0.1 + 0.2, 100.0000004] },
      {
        layer,
        kind: 'outline',
        outline: {
          vertices: [
            { x: 0, y: 0, bulge: 3e-9 },
            { x: 5, y: 0, bulge: 0 },
            { x: 5, y: 5, bulge: 0 },
          ],
        },
      },
    ),
  );
  const lines = text.trimEnd().split('\n');
  const values = lines.filter((_, i) => i % 2 === 1 && /^(1\d|2\d|3\d|4\d)$/.test(lines[i - 1]!.trim()));
  expect(values.length).toBeGreaterThan(10);
  for (const v of values) expect(v).toMatch(/^-?\d+(\.\d{1,9})?$/);
  expect(values).not.toContain('-0');
  expect(values).toContain('0.3');
});

test('words for a drawing lose accents, control codes and line breaks', () => {
  expect(asciiWords('Krümmer\nÄ 45%%d → 2')).toBe('Krummer A 45% %d ? 2');
  expect(asciiWords('')).toBe('-');
});

test('ezdxf reads it back without errors or fixes, with units, extents and handles in order', (context) => {
  const python = requireTool('ezdxf', context);
  const oval = rectangleOutline(44, 36, 18);
  const read = readDxf(
    python,
    bytes(
      on(
        { layer, kind: 'outline', outline: oval },
        { layer, kind: 'outline', outline: circleOutline([100, 0], 41) },
        { layer, kind: 'line', from: [0, -30], to: [100, -30] },
        { layer, kind: 'arc', centre: [0, 0], radius: 5, start: 0, end: Math.PI / 2 },
        { layer, kind: 'point', at: [1, 2] },
        { layer, kind: 'text', at: [0, -40], words: 'one line', height: 4, align: 'center' },
      ),
    ),
  );
  expect(read.errors).toEqual([]);
  expect(read.fixes).toEqual([]);
  expect(read.header).toMatchObject({ $INSUNITS: 4, $MEASUREMENT: 1, $ACADVER: 'AC1021' });
  expect(read.handles.seed).toBeGreaterThan(read.handles.highest);
  const [polyline, circle, line] = read.entities;
  expect(polyline).toMatchObject({ type: 'LWPOLYLINE', closed: true, repeated: false });
  expect(polyline!.area).toBeCloseTo(8 * 36 + Math.PI * 324, 4);
  expect(Math.max(...polyline!.bulges)).toBeLessThanOrEqual(0.414214);
  expect(circle).toMatchObject({ type: 'CIRCLE', diameter: expect.closeTo(41, 6) });
  expect(line!.length).toBeCloseTo(100, 9);
  const [low, high] = [read.header.$EXTMIN as number[], read.header.$EXTMAX as number[]];
  expect(low[1]).toBeCloseTo(-40, 6);
  expect(high[0]).toBeCloseTo(120.5, 6);
});
