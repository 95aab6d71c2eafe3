import { describe, expect, test } from 'vitest';
import { circleOutline, rectangleOutline } from '../../../src/geometry/outline/make.js';
import { outlineArea } from '../../../src/geometry/outline/measure.js';
import { validateOutline } from '../../../src/geometry/outline/valid.js';
import { noisyPoints } from '../../support/noisy-points.js';
import { tracedOf, traceFault } from '../../support/trace-plan.js';

const port = (text: string, fields = 'unit: mm') => tracedOf(`file: a.csv, ${fields}`, { 'a.csv': text });
const refused = (text: string, fields = 'unit: mm') =>
  traceFault(`file: a.csv, ${fields}`, { 'a.csv': text }).replace('file: cannot use "a.csv": ', '');

const SQUARE = ['0,0', '30,0', '30,30', '0,30'];
const csv = (rows: readonly string[]) => `${rows.join('\n')}\n`;

describe('points of a scan', () => {
  test.each([
    ['commas', csv(SQUARE)],
    ['semicolons', csv(SQUARE.map((r) => r.replace(',', ';')))],
    ['tabs', csv(SQUARE.map((r) => r.replace(',', '\t')))],
    ['blanks', csv(SQUARE.map((r) => r.replace(',', '  ')))],
    ['a heading, comments, blank lines', csv(['# gasket', 'x,y', '', ...SQUARE, '# end'])],
    ['a heading with units, quoted', csv(['"X mm","Y mm"', ...SQUARE.map((r) => `"${r.replace(',', '","')}"`)])],
    ['lines of another system, a mark at the start, none at the end', `\uFEFF${SQUARE.join('\r\n')}`],
    ['line ends of long ago', SQUARE.join('\r')],
    ['exponents and signs', csv(['+0,-0', '3e1,0', '30.,3.0E+1', '.0,30'])],
    ['the first point again at the end', csv([...SQUARE, '0,0'])],
    ['run the other way', csv([...SQUARE].reverse())],
  ])('with %s', (_, text) => {
    const { port: p, notes } = port(text);
    validateOutline(p.outline);
    expect(outlineArea(p.outline)).toBe(900);
    expect(p.outline.vertices).toHaveLength(4);
    expect(notes).toEqual([]);
  });

  test('400 of them, with noise, in inches: a few lines and arcs within the fit, which is said', () => {
    const shape = rectangleOutline(44, 36, 12);
    const points = noisyPoints(shape, 400, 0.005, 9);
    const text = csv(['x_in,y_in', ...points.map(([x, y]) => `${x / 25.4},${y / 25.4}`)]);
    const { port: p, notes } = port(text, 'unit: in');
    expect(p.outline.vertices.length).toBeLessThanOrEqual(24);
    expect(Math.abs(outlineArea(p.outline) / outlineArea(shape) - 1)).toBeLessThan(0.001);
    expect(notes[0]).toMatch(
      /^port of cylinder 1: 400 points of a\.csv are fitted by \d+ lines and arcs, largest deviation 0\.0[01]\d* mm$/,
    );
    expect(p.shape).toMatch(/^traced 4[34]\.?\d* x 3[56]\.?\d* mm from a\.csv$/);
  });

  test('points repeated are left out and named by their line', () => {
    const { notes } = port(csv(['0,0', '30,0', '30,0', '30,30', '30,30.001', '0,30']));
    expect(notes).toEqual([
      'port of cylinder 1: a.csv: points within 0.01 mm of the one before are left out: lines 3, 5',
    ]);
  });
});

describe('each refusal names the line', () => {
  test.each([
    [
      'a letter',
      csv([...SQUARE.slice(0, 2), '3O,30', '0,30']),
      'line 3: expected a point such as 12.5,3.25, found "3O,30"',
    ],
    ['one number', csv([...SQUARE, '5']), 'line 5: expected a point such as 12.5,3.25, found "5"'],
    ['three numbers', csv(['0,0,0', ...SQUARE]), 'line 1: expected a point such as 12.5,3.25, found "0,0,0"'],
    ['a heading further down', csv([...SQUARE, 'x,y']), 'line 5: expected a point such as 12.5,3.25, found "x,y"'],
    ['decimal commas', csv(['0;0', '30,5;0', '30;30']), 'line 2: expected decimal points, found "30,5;0"'],
    ['no number', csv([...SQUARE, 'NaN,1']), 'line 5: expected a point such as 12.5,3.25, found "NaN,1"'],
    ['far out', csv([...SQUARE, '1e7,1']), 'line 5: "1e7,1" lies too far out for a port'],
    ['two points', csv(['0,0', '1,1', '0,0']), 'it has 2 different points; a port needs three or more'],
    ['nothing', '', 'it has 0 different points; a port needs three or more'],
    [
      'points on one line',
      csv(['0,0', '10,0', '20,0']),
      'the contour crosses itself at 10, 0 mm: the side from line 1 to 2 and the side from line 3 to 1',
    ],
    [
      'points out of order',
      csv(['0,0', '30,30', '30,0', '0,30']),
      'the contour crosses itself at 15, 15 mm: the side from line 1 to 2 and the side from line 3 to 4',
    ],
    ['bytes', '\u0001\u0002\u0003', 'line 1: expected a point such as 12.5,3.25, found "\\u0001\\u0002\\u0003"'],
  ])('%s', (_, text, message) => {
    expect(refused(text)).toBe(message);
  });

  test('a slip of the probe, by its line and how far it is off', () => {
    const rows = noisyPoints(circleOutline([0, 0], 40), 120, 0, 1).map(([x, y]) => `${x},${y}`);
    const [x, y] = rows[60]!.split(',').map(Number);
    rows[60] = `${x! - 15},${y! - 2}`;
    expect(refused(csv(rows))).toMatch(
      /^line 61: this point at -34\.\d+, -2\.\d+ mm lies 15\.\d+ mm from its neighbours, which are 2\.\d+ mm apart: a slip of the probe\? take it out$/,
    );
  });

  test('no unit, or a layer', () => {
    expect(refused(csv(SQUARE), 'rotation: 0')).toBe('unit: missing; expected mm or in, the unit of "a.csv"');
    expect(refused(csv(SQUARE), 'unit: mm, layer: CUT')).toBe('layer: a CSV has no layers: leave it out');
  });

  test('more points than a port needs', () => {
    const rows = noisyPoints(circleOutline([0, 0], 250), 20_001, 0, 1).map(([x, y]) => `${x},${y}`);
    expect(refused(csv(rows))).toBe('line 20001: it has more than 20000 points; thin them out');
  });
});
