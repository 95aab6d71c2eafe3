import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { circleOutline } from '../../../src/geometry/outline/make.js';
import { circle, dxfWith, line, polyline } from '../../support/dxf-text.js';
import { noisyPoints } from '../../support/noisy-points.js';
import { readHead, readTraced } from '../../support/trace-plan.js';

const RING = noisyPoints(circleOutline([50, 50], 40), 60, 0.01, 1);

/** A drawing with one of everything that is read. */
const DRAWING = dxfWith([
  line([0, 0], [30, 0]),
  line([30, 0], [30, 30]),
  [
    [0, 'ARC'],
    [8, '0'],
    [10, 15],
    [20, 30],
    [40, 15],
    [50, 0],
    [51, 180],
  ],
  line([0, 30], [0, 0]),
  circle(100, 0, 4.5),
  polyline(RING),
  [
    [0, 'ELLIPSE'],
    [8, '0'],
    [10, 200],
    [20, 0],
    [30, 0],
    [11, 20],
    [21, 0],
    [31, 0],
    [40, 0.5],
    [41, 0],
    [42, 6.283185307179586],
  ],
  [
    [0, 'SPLINE'],
    [8, '0'],
    [70, 8],
    [71, 2],
    [72, 6],
    [73, 3],
    [40, 0],
    [40, 0],
    [40, 0],
    [40, 1],
    [40, 1],
    [40, 1],
    [10, 300],
    [20, 0],
    [10, 320],
    [20, 40],
    [10, 340],
    [20, 0],
  ],
  line([340, 0], [300, 0]),
  [
    [0, 'POLYLINE'],
    [8, '0'],
    [66, 1],
    [70, 1],
  ],
  [
    [0, 'VERTEX'],
    [8, '0'],
    [10, 400],
    [20, 0],
    [42, 1],
  ],
  [
    [0, 'VERTEX'],
    [8, '0'],
    [10, 430],
    [20, 0],
    [42, 1],
  ],
  [
    [0, 'SEQEND'],
    [8, '0'],
  ],
]);

const CSV = `x,y\n${RING.map(([x, y]) => `${x},${y}`).join('\n')}\n`;

/** Reads a text as a port and as a head; whatever it is, there is a plan or problems with a line, soon. */
function survives(text: string | Uint8Array): void {
  const start = performance.now();
  for (const read of [
    readTraced('file: a.dxf, contour: 1', { 'a.dxf': text }),
    readTraced('file: a.csv, unit: mm', { 'a.csv': text }),
    readHead('file: a.dxf, origin: [0, 0]', { 'a.dxf': text }),
  ]) {
    if (read.ok) {
      for (const { outline } of read.plan.ports) {
        expect(outline.vertices.every((v) => [v.x, v.y, v.bulge].every(Number.isFinite))).toBe(true);
      }
    } else {
      expect(read.problems.length).toBeGreaterThan(0);
      expect(read.text).not.toMatch(/undefined|NaN mm|is not a function|Cannot read/);
    }
  }
  expect(performance.now() - start).toBeLessThan(10_000);
}

test('the drawing of everything is sound', () => {
  const read = readTraced('file: a.dxf, contour: 1', { 'a.dxf': DRAWING });
  expect(read.ok || read.text).toBe(true);
});

describe('no file breaks the reader or keeps it', () => {
  test('random bytes', () => {
    fc.assert(fc.property(fc.uint8Array({ maxLength: 400 }), survives), { numRuns: 150, seed: 1 });
  });

  test('random groups', () => {
    const value = fc.oneof(
      fc.constantFrom(
        'SECTION',
        'ENTITIES',
        'ENDSEC',
        'EOF',
        'LINE',
        'SPLINE',
        'LWPOLYLINE',
        'HEADER',
        '$INSUNITS',
        '4',
        '1e308',
        '-0',
      ),
      fc.double().map(String),
    );
    const group = fc.tuple(fc.constantFrom(0, 2, 8, 9, 10, 20, 40, 42, 70, 71, 90, 102), value);
    fc.assert(
      fc.property(fc.array(group, { maxLength: 60 }), (groups) => {
        survives(dxfWith([groups]));
        survives(groups.map(([c, v]) => `${c}\n${v}\n`).join(''));
      }),
      { numRuns: 150, seed: 2 },
    );
  });

  test('lines of a drawing changed, doubled, swapped or lost', () => {
    const lines = DRAWING.split('\n');
    const at = fc.nat(lines.length - 1);
    const change = fc.tuple(at, fc.constantFrom('drop', 'double', 'swap', 'number', 'word'), at, fc.double());
    fc.assert(
      fc.property(fc.array(change, { minLength: 1, maxLength: 4 }), (changes) => {
        const copy = [...lines];
        for (const [i, what, j, number] of changes) {
          if (what === 'drop') copy.splice(i, 1);
          else if (what === 'double') copy.splice(i, 0, copy[i] ?? '');
          else if (what === 'swap') [copy[i], copy[j]] = [copy[j] ?? '', copy[i] ?? ''];
          else copy[i] = what === 'number' ? String(number) : 'LINE';
        }
        survives(copy.join('\n'));
      }),
      { numRuns: 150, seed: 3 },
    );
  });

  test('numbers of a drawing made others', () => {
    const lines = DRAWING.split('\n');
    const numbers = lines.flatMap((l, i) => (i % 2 === 1 && /^-?\d/.test(l) ? [i] : []));
    const other = fc.oneof(
      fc.double({ min: -1e6, max: 1e6, noNaN: true }),
      fc.constantFrom(0, -1, 1e-300, 999_999, 1e-9),
    );
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.constantFrom(...numbers), other), { minLength: 1, maxLength: 3 }), (changes) => {
        const copy = [...lines];
        for (const [i, v] of changes) copy[i] = String(v);
        survives(copy.join('\n'));
      }),
      { numRuns: 100, seed: 4 },
    );
  });

  test('points of a scan changed', () => {
    const rows = CSV.split('\n');
    const at = fc.nat(rows.length - 1);
    fc.assert(
      fc.property(
        fc.array(fc.tuple(at, fc.oneof(fc.string(), fc.constantFrom(',', ';', '1,2,3', '0,0', '1e9,1', 'x,y'))), {
          maxLength: 4,
        }),
        (changes) => {
          const copy = [...rows];
          for (const [i, v] of changes) copy[i] = v;
          survives(copy.join('\n'));
        },
      ),
      { numRuns: 150, seed: 5 },
    );
  });

  test('much of what is awkward', () => {
    const n = 20_000;
    survives(dxfWith(Array.from({ length: n }, () => line([0, 0], [1, 1]))));
    survives(dxfWith(Array.from({ length: n }, (_, i) => line([i, 0], [i, 9]))));
    survives(dxfWith(Array.from({ length: n }, (_, i) => circle(i, 0, 9))));
    survives(
      dxfWith([polyline(Array.from({ length: n }, (_, i): [number, number] => [i % 2 === 0 ? 0 : 100, i / n]))]),
    );
    survives(
      dxfWith([
        polyline(Array.from({ length: n }, (_, i): [number, number] => [(i % 2) * 100 + i / n, (i % 2) * 100 - i / n])),
      ]),
    );
    survives(`${'999\nword\n'.repeat(n)}0\nEOF\n`);
    survives(
      dxfWith([
        [
          [0, 'SPLINE'],
          [71, 1],
          ...Array.from({ length: 3000 }, (_, i) => [40, i] as const),
          ...Array.from(
            { length: 2998 },
            (_, i) =>
              [
                [10, i % 2 === 0 ? 0 : 999_999],
                [20, i],
              ] as const,
          ).flat(),
        ],
      ]),
    );
  }, 60_000);
});
