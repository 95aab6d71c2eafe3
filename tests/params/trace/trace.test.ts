import { describe, expect, test } from 'vitest';
import { outlineContains } from '../../../src/geometry/outline/contains.js';
import { circleOf, rectangleOutline } from '../../../src/geometry/outline/make.js';
import { outlineArea, outlineBounds } from '../../../src/geometry/outline/measure.js';
import { circle, dxfWith, line, polyline } from '../../support/dxf-text.js';
import { noisyPoints } from '../../support/noisy-points.js';
import { readTraced, tracedOf, traceFault } from '../../support/trace-plan.js';
import { corners, dxf, L, port, ROUND_L, refused, square } from '../../support/traced-drawing.js';

describe('a trace comes to lie on the face', () => {
  test('with the centre of its area at the port, or the point the plan names', () => {
    const l = port([polyline(L)]);
    // Two boxes of 40 x 10 and 15 x 20: the centre of area by hand.
    const [x, y] = [(400 * 120 + 300 * 107.5) / 700, (400 * 55 + 300 * 70) / 700];
    expect(corners(l.port.outline)).toEqual(L.map(([u, v]) => `${+(u - x).toFixed(6)},${+(v - y).toFixed(6)}`).sort());
    expect(corners(port([polyline(L)], ROUND_L).port.outline)).toEqual(
      L.map(([u, v]) => `${u - 107},${v - 56}`).sort(),
    );
  });

  test('mirrored first, then turned, each about that point; counter-clockwise always', () => {
    const placed = (fields: string) => corners(port([polyline(L)], `${ROUND_L}, ${fields}`).port.outline);
    const about = L.map(([u, v]) => [u - 107, v - 56] as const);
    const words = (points: readonly (readonly [number, number])[]) =>
      points.map(([u, v]) => `${u + 0},${v + 0}`).sort();
    expect(placed('rotation: 90')).toEqual(words(about.map(([u, v]) => [-v, u])));
    expect(placed('mirror: true')).toEqual(words(about.map(([u, v]) => [-u, v])));
    expect(placed('mirror: true, rotation: 90')).toEqual(words(about.map(([u, v]) => [-v, -u])));
    expect(port([polyline(L)], `${ROUND_L}, rotation: 15`).port.shape).toBe(
      'traced 44.049 x 36.57 mm from a.dxf turned 15 degrees'.replace('44.049 x 36.57', sizeOf(15)),
    );
  });

  test('in inches: by the drawing, or by the plan where that does not say', () => {
    const two = [circle(1, 1, 1)];
    expect(circleOf(tracedOf('file: a.dxf', dxf(two, 1)).port.outline)!.diameter).toBeCloseTo(50.8, 9);
    for (const units of [0, null]) {
      expect(circleOf(tracedOf('file: a.dxf, unit: in', dxf(two, units)).port.outline)!.diameter).toBeCloseTo(50.8, 9);
    }
  });

  function sizeOf(degrees: number): string {
    const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
    const xs = L.map(([u, v]) => u * c - v * s);
    const ys = L.map(([u, v]) => u * s + v * c);
    const extent = (a: number[]) => +(Math.max(...a) - Math.min(...a)).toFixed(3);
    return `${extent(xs)} x ${extent(ys)}`;
  }
});

describe('which contour', () => {
  const three = [circle(0, 0, 30), circle(0, 0, 20), circle(100, 0, 15)];
  const diameter = (fields: string) => circleOf(port(three, fields).port.outline)!.diameter;

  test('by number, by a point in it, by the nearest, or by the point at the centre', () => {
    expect(diameter(', contour: 1')).toBe(60);
    expect(diameter(', contour: 3')).toBe(30);
    expect(diameter(', contour: [1, 0]')).toBe(40);
    expect(diameter(', contour: [0, 25]')).toBe(60);
    expect(diameter(', contour: [70, 0]')).toBe(30);
    expect(diameter(', at: [99, 1]')).toBe(30);
  });

  test('several and no word which is refused, with the list', () => {
    expect(refused(three)).toBe(
      'contour: missing; the file has 3 closed contours: give the number of one, or a point [x, y] in it. 1: 60 x 60 mm about 0, 0, CIRCLE number 1 (line 16); 2: 40 x 40 mm about 0, 0, CIRCLE number 2 (line 26); 3: 30 x 30 mm about 100, 0, CIRCLE number 3 (line 36)',
    );
    expect(refused(three, ', contour: 4')).toBe(
      'contour: expected a number from 1 to 3, the closed contours of the file, found 4',
    );
    expect(refused(three, ', contour: 1, at: [99, 0]')).toBe(
      "at: the point of the file at the port's centre must lie in the contour, found 99, 0 mm",
    );
  });

  test('a layer that is not there is told those that are', () => {
    expect(refused([circle(0, 0, 9, 'CUT'), circle(0, 0, 9, 'MARK')], ', layer: PORTS')).toBe(
      'layer: nothing lies on layer "PORTS"; it has "CUT" and "MARK"',
    );
  });
});

describe('what is mended is said', () => {
  test('gaps up to heal: each with its place and size, closed at its middle', () => {
    const sides = square(0, 0, 30);
    const { port: p, notes } = port([...sides.slice(0, 3), line([0, 30.06], [0.04, 0], '0', 'A4')]);
    expect(notes).toEqual([
      'port of cylinder 1: a.dxf: a gap of 0.04 mm is closed at 0.02, 0 mm, from LINE A1 (line 16) to LINE A4 (line 58)',
      'port of cylinder 1: a.dxf: a gap of 0.06 mm is closed at 0, 30.03 mm, from LINE A3 (line 44) to LINE A4 (line 58)',
    ]);
    expect(p.outline.vertices).toHaveLength(4);
    expect(outlineArea(p.outline)).toBeCloseTo(900, -1);
  });

  test('what is drawn twice, either way round, is left out and named', () => {
    const { port: p, notes } = port([
      ...square(0, 0, 30),
      line([30, 30], [30, 0], '0', 'B1'),
      line([0, 0], [30, 0], '0', 'B2'),
    ]);
    expect(outlineArea(p.outline)).toBeCloseTo(900, 9);
    expect(notes).toEqual([
      'port of cylinder 1: a.dxf: LINE B1 (line 72) lies on LINE A2 (line 30) and is left out',
      'port of cylinder 1: a.dxf: LINE B2 (line 86) lies on LINE A1 (line 16) and is left out',
    ]);
    const twice = port([circle(0, 0, 20), circle(0, 0, 20)]);
    expect(twice.notes).toEqual([
      'port of cylinder 1: a.dxf: CIRCLE number 2 (line 26) lies on CIRCLE number 1 (line 16) and is left out',
    ]);
  });

  test('points and crumbs shorter than a cut are nothing', () => {
    const { port: p, notes } = port([
      line([5, 5], [5, 5]),
      ...square(0, 0, 30),
      polyline(
        [
          [3, 3],
          [3, 3.0001],
        ],
        '0',
        0,
      ),
    ]);
    expect(p.outline.vertices).toHaveLength(4);
    expect(notes).toEqual([]);
  });

  test('400 points of a gasket become a few lines and arcs, and the fit is stated', () => {
    const shape = rectangleOutline(44, 36, 14);
    const points = noisyPoints(shape, 400, 0.005, 4);
    const { port: p, notes } = port([polyline(points)]);
    expect(p.outline.vertices.length).toBeLessThanOrEqual(24);
    expect(notes).toHaveLength(1);
    expect(notes[0]).toMatch(
      /^port of cylinder 1: 400 points of a\.dxf are fitted by \d+ lines and arcs, largest deviation 0\.0[01]\d* mm$/,
    );
    expect(Math.abs(outlineArea(p.outline) / outlineArea(shape) - 1)).toBeLessThan(0.001);
  });

  test('a finer fit takes more lines and arcs, arcs of the drawing are never touched', () => {
    const wavy = Array.from({ length: 300 }, (_, i): [number, number] => {
      const a = (i * 2 * Math.PI) / 300;
      const r = 20 + 2 * Math.sin(3 * a);
      return [r * Math.cos(a), r * Math.sin(a)];
    });
    const count = (fit: number) => port([polyline(wavy)], `, fit: ${fit}`).port.outline.vertices.length;
    expect(count(0.005)).toBeGreaterThan(count(0.05));
    const exact = port([
      polyline([
        [0, 0, 0.1],
        [30, 0, 1],
        [30, 30],
        [0, 30],
      ]),
    ]);
    expect(exact.port.outline.vertices.map((v) => +v.bulge.toFixed(12))).toEqual([0.1, 1, 0, 0]);
    expect(exact.notes).toEqual([]);
  });
});

describe('fields', () => {
  test.each([
    ['file: a.dxf, points: [[0, 0], [1, 1]]', 'points: give the points or the file they are in, not both'],
    ['rotation: 5', 'points: missing; list the corners, or name a DXF or CSV under file'],
    [
      'points: [[-9, -9], [9, -9], [0, 9]], rotation: 5',
      'rotation: rotation goes with a file; these points lie about the centre as they are',
    ],
    ['file: a.dxf, unit: cm', 'unit: expected mm or in, found "cm"'],
    ['file: a.dxf, fit: 0', 'fit: expected a length over 0.001 mm and at most 0.5 mm, found 0 mm'],
    ['file: a.dxf, heal: 5', 'heal: expected a length from 0 mm to 1 mm, found 5 mm'],
    ['file: a.dxf, contour: 0', 'contour: expected a whole number from 1 to 1000, found 0'],
    ['file: a.dxf, layers: CUT', 'layers: unknown field; did you mean "layer"?'],
  ])('%j is refused', (fields, message) => {
    expect(traceFault(fields, dxf([circle(0, 0, 20)]))).toBe(message);
  });

  test('the file is opened once however many ports it gives', () => {
    let opened = 0;
    const files = {
      get 'a.dxf'() {
        opened++;
        return dxfWith([circle(0, 0, 20), circle(90, 0, 20)]);
      },
    };
    const read = readTraced(
      'file: a.dxf, contour: 1 } }\n    - { cylinder: 2, at: [200, 0], shape: { kind: traced, file: a.dxf, contour: 2',
      files,
    );
    expect(!read.ok && read.text).toMatch(/cylinder 2 has a port already/);
    expect(opened).toBe(1);
  });

  test('what it holds is the port', () => {
    expect(outlineContains(port([circle(500, 500, 20)]).port.outline, [0, 0])).toBe(true);
    expect(outlineBounds(port([circle(500, 500, 20)]).port.outline).to[1]).toBeCloseTo(20, 12);
  });
});
