import { describe, expect, test } from 'vitest';
import { circleOutline } from '../../../src/geometry/outline/make.js';
import { circle, dxfWith, type Groups, line, polyline } from '../../support/dxf-text.js';
import { noisyPoints } from '../../support/noisy-points.js';
import { traceFault } from '../../support/trace-plan.js';
import { port, refused, square } from '../../support/traced-drawing.js';

describe('each refusal names line or entity, and the place', () => {
  test('a gap larger than heal, with both entities and the gap', () => {
    const open = [...square(0, 0, 30).slice(0, 3), line([0, 30], [0, 0.35], '0', 'A4')];
    expect(refused(open)).toBe(
      'file: cannot use "a.dxf": a contour does not close: LINE A1 (line 16) ends loose at 0, 0 mm, and the nearest loose end, of LINE A4 (line 58) at 0, 0.35 mm, is 0.35 mm away; close it in the drawing, or raise heal (0.1 mm)',
    );
    expect(port(open, ', heal: 0.4').notes).toHaveLength(1);
    expect(refused(open.slice(0, 2))).toMatch(
      /LINE A1 \(line 16\) ends loose at 0, 0 mm, .* of LINE A2 \(line 30\) at 30, 30 mm, is 42\.426 mm away/,
    );
  });

  test('three ends at one point', () => {
    expect(refused([...square(0, 0, 30), line([0, 0], [9, 9], '0', 'B1')])).toBe(
      'file: cannot use "a.dxf": contours meet at 0, 0 mm: LINE A1 (line 16), LINE A4 (line 58), LINE B1 (line 72); each end joins one other',
    );
  });

  test('a contour that crosses itself: the place in the file and the entities', () => {
    expect(
      refused([
        line([0, 0], [30, 30], '0', 'A1'),
        line([30, 30], [30, 0], '0', 'A2'),
        line([30, 0], [0, 30], '0', 'A3'),
        line([0, 30], [0, 0], '0', 'A4'),
      ]),
    ).toBe(
      'file: cannot use "a.dxf": the contour crosses itself at 15, 15 mm: LINE A1 (line 16) and LINE A3 (line 44)',
    );
    expect(
      refused([
        polyline([
          [100, 0],
          [130, 30],
          [130, 0],
          [100, 30],
        ]),
      ]),
    ).toBe(
      'file: cannot use "a.dxf": the contour crosses itself at 115, 15 mm: sides 1 and 3 of LWPOLYLINE number 1 (line 16)',
    );
  });

  test('a side that runs back on itself', () => {
    expect(
      refused([
        polyline([
          [0, 0],
          [30, 0],
          [10, 0],
          [10, 20],
        ]),
      ]),
    ).toMatch(/the contour crosses itself at 10, 0 mm: sides 1 and 2 of LWPOLYLINE number 1 \(line 16\)$/);
  });

  test.each([
    [
      'no unit',
      dxfWith([circle(0, 0, 20)], null),
      'unit: missing; expected mm or in: "a.dxf" does not say its unit ($INSUNITS)',
    ],
    [
      'a unit no drawing of a port has',
      dxfWith([circle(0, 0, 20)], 13),
      'file: cannot use "a.dxf": its unit, $INSUNITS 13, is none of mm, in, cm, m and ft',
    ],
    [
      'binary',
      'AutoCAD Binary DXF\r\n\u001a\u0000',
      'file: cannot use "a.dxf": line 1: this is a binary DXF; save it as ASCII DXF',
    ],
    ['a DWG', 'AC1027\u0000\u0000', 'file: cannot use "a.dxf": line 1: this is a DWG; save it as ASCII DXF'],
    ['empty', '', 'file: cannot use "a.dxf": the file is empty'],
    [
      'prose',
      'solid bay\nfacet normal',
      'file: cannot use "a.dxf": line 1: expected a group code of a DXF, found "solid bay"',
    ],
    [
      'cut short in a value',
      dxfWith([circle(0, 0, 20)]).slice(0, -26),
      'file: cannot use "a.dxf": line 20: the file ends inside "ENTITIES"; it is cut short',
    ],
    [
      'without its end',
      dxfWith([circle(0, 0, 20)]).slice(0, -6),
      'file: cannot use "a.dxf": line 26: the file ends without EOF; it is cut short',
    ],
    ['nothing drawn', dxfWith([]), 'file: cannot use "a.dxf": it has no lines on any layer that is switched on'],
  ])('%s', (_, text, message) => {
    expect(traceFault('file: a.dxf', { 'a.dxf': text })).toBe(message);
  });

  test('a unit that is not the drawing’s', () => {
    expect(refused([circle(0, 0, 20)], ', unit: in')).toBe(
      'unit: "a.dxf" says its unit is mm ($INSUNITS 4), the plan says in; leave unit out if the file is right',
    );
  });

  const bad = (groups: Groups) => refused([groups]).replace('file: cannot use "a.dxf": ', '');
  test.each([
    [
      [
        [0, 'LINE'],
        [8, '0'],
        [10, 'abc'],
        [20, 0],
        [11, 1],
        [21, 1],
      ],
      'line 20: expected a number for group 10, found "abc"',
    ],
    [
      [
        [0, 'LINE'],
        [8, '0'],
        [10, 'NaN'],
        [20, 0],
        [11, 1],
        [21, 1],
      ],
      'line 20: expected a number for group 10, found "NaN"',
    ],
    [
      [
        [0, 'LINE'],
        [8, '0'],
        [10, '1e9'],
        [20, 0],
        [11, 1],
        [21, 1],
      ],
      'line 20: 1e9 is larger than any drawing of a port holds',
    ],
    [
      [
        [0, 'LINE'],
        [8, '0'],
        [10, 0],
        [20, 0],
        [11, 1],
      ],
      'LINE number 1 (line 16) has no y of its end (group 21)',
    ],
    [
      [
        [0, 'CIRCLE'],
        [8, '0'],
        [10, 0],
        [20, 0],
        [40, -4],
      ],
      'CIRCLE number 1 (line 16) has a radius of -4',
    ],
    [
      [
        [0, 'ARC'],
        [8, '0'],
        [10, 0],
        [20, 0],
        [40, 4],
        [50, 0],
      ],
      'ARC number 1 (line 16) has no end angle (group 51)',
    ],
    [
      [
        [0, 'LWPOLYLINE'],
        [90, 3],
        [70, 1],
        [10, 0],
        [20, 0],
        [10, 9],
        [20, 0],
      ],
      'LWPOLYLINE number 1 (line 16) says 3 vertices and has 2',
    ],
    [
      [
        [0, 'LWPOLYLINE'],
        [90, 2],
        [70, 1],
        [10, 0],
        [20, 0],
        [10, 9],
      ],
      'LWPOLYLINE number 1 (line 16): vertex 2 has no y (group 20)',
    ],
    [
      [
        [0, 'LWPOLYLINE'],
        [70, 1],
        [10, 0],
        [20, 0],
        [42, 5000],
        [10, 9],
        [20, 0],
      ],
      'LWPOLYLINE number 1 (line 16): vertex 1 has a bulge of 5000',
    ],
    [
      [
        [0, 'POLYLINE'],
        [70, 1],
      ],
      'POLYLINE of line 16 has no SEQEND',
    ],
    [
      [
        [0, 'ELLIPSE'],
        [10, 0],
        [20, 0],
        [11, 0],
        [21, 0],
        [40, 0.5],
      ],
      'ELLIPSE number 1 (line 16) has no width',
    ],
    [
      [
        [0, 'SPLINE'],
        [71, 3],
        [10, 0],
        [20, 0],
        [10, 1],
        [20, 1],
      ],
      'SPLINE number 1 (line 16): 2 control points are too few for a spline of degree 3',
    ],
    [
      [
        [0, 'SPLINE'],
        [71, 1],
        [40, 0],
        [40, 1],
        [10, 0],
        [20, 0],
        [10, 1],
        [20, 1],
      ],
      'SPLINE number 1 (line 16): expected 4 knots for 2 control points of degree 1, found 2',
    ],
    [
      [
        [0, 'SPLINE'],
        [71, 1],
        [40, 0],
        [40, 1],
        [40, 0],
        [40, 1],
        [10, 0],
        [20, 0],
        [10, 1],
        [20, 1],
      ],
      'SPLINE number 1 (line 16): its knots run backwards',
    ],
    [
      [
        [0, 'SPLINE'],
        [71, 1],
        [40, 0],
        [40, 0],
        [40, 1],
        [40, 1],
        [41, 1],
        [41, -1],
        [10, 0],
        [20, 0],
        [10, 1],
        [20, 1],
      ],
      'SPLINE number 1 (line 16): a weight is not above zero',
    ],
    [
      [
        [0, 'SPLINE'],
        [71, 1],
        [73, 5],
        [40, 0],
        [10, 0],
        [20, 0],
      ],
      'SPLINE number 1 (line 16) says 5 control points and has 1',
    ],
    [
      [
        [0, 'INSERT'],
        [5, '2F'],
        [8, 'CUT'],
        [2, 'P'],
      ],
      'INSERT 2F (line 16) on layer "CUT" is a block; explode it, or choose another layer',
    ],
    [
      [
        [0, 'constructor'],
        [8, 'CUT'],
      ],
      'constructor number 1 (line 16) on layer "CUT" cannot be read; turn it into lines and arcs, or choose another layer',
    ],
  ] as const)('%j', (groups, message) => {
    expect(bad(groups as unknown as Groups)).toBe(message);
  });

  test('more of anything than a port has', () => {
    const many = dxfWith(
      Array.from(
        { length: 100_001 },
        () =>
          [
            [0, 'POINT'],
            [8, '0'],
          ] as const,
      ),
    );
    expect(traceFault('file: a.dxf', { 'a.dxf': many })).toMatch(
      /: line \d+: it has more than 100000 entities; keep only the contours$/,
    );
    const huge = { length: 20_000_001 } as Uint8Array;
    expect(traceFault('file: a.dxf', { 'a.dxf': huge })).toBe(
      'file: cannot use "a.dxf": it has 20000001 bytes; a trace has at most 20000000',
    );
    const rough = noisyPoints(circleOutline([0, 0], 200), 5000, 0.05, 2);
    expect(refused([polyline(rough)], ', fit: 0.002')).toMatch(
      /the contour crosses itself|lines and arcs are left of LWPOLYLINE number 1 \(line 16\) within 0\.002 mm, over 500: too rough for a port; raise fit, or draw it with fewer$/,
    );
    expect(refused([circle(0, 0, 151)])).toBe(
      'file: cannot use "a.dxf": CIRCLE number 1 (line 16): expected a port of at most 300 mm',
    );
  });

  test('a file that cannot be had, or is of another kind', () => {
    expect(traceFault('file: b.dxf', {})).toBe('file: cannot use "b.dxf": no such file');
    expect(traceFault('file: a.svg', { 'a.svg': '' })).toBe(
      'file: expected a file that ends in .dxf or .csv, found "a.svg"',
    );
  });
});
