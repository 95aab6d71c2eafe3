import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { meshVolume } from '../../../src/geometry/mesh/measure.js';
import { readStl } from '../../../src/geometry/mesh/stl-read.js';
import { stlBinary, stlText, type Triangle, tetrahedron } from '../../support/stl-text.js';

const MOST = 1000;
const text = (s: string) => new TextEncoder().encode(s);
const read = (bytes: Uint8Array) => readStl(bytes, MOST);
const corners = (bytes: Uint8Array) => [...read(bytes).positions];

const FACET = 'facet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex 1 0 0\nvertex 0 1 0\nendloop\nendfacet\n';

describe('STL', () => {
  test('text and binary give the same triangles, none welded, all facing as they did', () => {
    const solid = tetrahedron(12);
    expect(corners(stlText(solid))).toEqual(solid.flat(2));
    expect(corners(stlBinary(solid))).toEqual(solid.flat(2));
    expect(meshVolume(read(stlText(solid)))).toBeCloseTo(12 ** 3 / 6, 9);
    expect([...read(stlText(solid)).triangles]).toEqual([...Array(12).keys()]);
  });

  test('a binary file is binary even where its header begins with solid', () => {
    expect(corners(stlBinary(tetrahedron(3), 'solid part written by a scanner\nfacet normal'))).toEqual(
      tetrahedron(3).flat(2),
    );
  });

  test.each([
    ['Windows line ends', `solid a\r\n${FACET.replaceAll('\n', '\r\n')}endsolid a\r\n`],
    ['old line ends', `solid a\r${FACET.replaceAll('\n', '\r')}endsolid a\r`],
    ['capitals', `SOLID A\n${FACET.toUpperCase()}ENDSOLID\n`],
    ['no name, no line end', `solid\n${FACET}endsolid`],
    ['a name with the words of the format', `solid facet normal endsolid\n${FACET}endsolid facet\n`],
    ['spaces and tabs', `\n\n  solid x\n${FACET.replaceAll(' ', '\t  ')}\n\nendsolid x\n\n`],
    ['a byte order mark', `\uFEFFsolid a\n${FACET}endsolid a\n`],
    ['a normal that is no number', `solid a\n${FACET.replace('0 0 1', 'nan -nan(ind) inf')}endsolid a\n`],
    ['exponents', `solid a\n${FACET.replace('1 0 0', '1.0e+00 -0.0E0 0.')}endsolid a\n`],
  ])('text with %s', (_, file) => {
    const found = corners(text(file)).map((v) => v + 0);
    expect(found).toEqual([0, 0, 0, 1, 0, 0, 0, 1, 0]);
  });

  test('solids may follow one another', () => {
    expect(corners(text(`solid a\n${FACET}endsolid a\nsolid b\n${FACET}${FACET}endsolid b\n`))).toHaveLength(27);
  });

  test('triangles with two corners in one point are left out', () => {
    const flat: Triangle = [
      [1, 2, 3],
      [4, 5, 6],
      [1, 2, 3],
    ];
    expect(corners(stlBinary([flat, ...tetrahedron(2), flat]))).toEqual(tetrahedron(2).flat(2));
    expect(() => read(stlBinary([flat]))).toThrow('it has no triangles');
  });

  test('need not be closed', () => {
    expect(read(stlText(tetrahedron(5).slice(1))).triangles).toHaveLength(9);
  });

  test.each([
    ['nothing', new Uint8Array(0), 'this is no STL: a binary STL has 84 bytes, not 0, or more'],
    [
      'a binary file cut short',
      stlBinary(tetrahedron(1)).slice(0, -1),
      'this is no STL: a binary STL of 4 triangles has 284 bytes, not 283',
    ],
    [
      'a binary file with more behind',
      new Uint8Array([...stlBinary(tetrahedron(1)), 0]),
      'this is no STL: a binary STL of 4 triangles has 284 bytes, not 285',
    ],
    ['a binary file of no triangles', stlBinary([]), 'it has no triangles'],
    ['a text file of no triangles', text('solid a\nendsolid a\n'), 'it has no triangles'],
    ['a text that is no STL', text(`ply\n${'x'.repeat(100)}`), 'this is no STL'],
    [
      'a text cut short',
      text(`solid a\n${FACET}`),
      'line 9 of the text STL: expected facet or endsolid, found the end',
    ],
    ['a facet cut short', text(`solid a\n${FACET.slice(0, 60)}`), 'expected'],
    [
      'a corner that is no number',
      text(`solid a\n${FACET.replace('1 0 0', '1 nan 0')}endsolid a\n`),
      'line 5 of the text STL: expected a number, found "nan"',
    ],
    [
      'a corner without end',
      text(`solid a\n${FACET.replace('1 0 0', '1 1e999 0')}endsolid a\n`),
      'line 5 of the text STL: expected a number, found "1e999"',
    ],
    [
      'a corner of two numbers',
      text(`solid a\n${FACET.replace('1 0 0', '1 0')}endsolid a\n`),
      'line 6 of the text STL: expected a number, found "vertex"',
    ],
    [
      'four corners',
      text(`solid a\n${FACET.replace('endloop', 'vertex 1 1 1\nendloop')}endsolid a\n`),
      'line 7 of the text STL: expected endloop, found "vertex"',
    ],
    ['a word without end', text(`solid a\n${'x'.repeat(500)}`), 'line 2 is no line of a text STL'],
    [
      'a binary corner that is no number',
      stlBinary([
        [
          [0, 0, 0],
          [Number.NaN, 0, 0],
          [0, 1, 0],
        ],
      ]),
      'triangle 1 has a corner that is no number',
    ],
    [
      'an endless binary corner',
      stlBinary([
        ...tetrahedron(1),
        [
          [0, 0, 0],
          [Number.POSITIVE_INFINITY, 0, 0],
          [0, 1, 0],
        ],
      ]),
      'triangle 5 has a corner that is no number',
    ],
  ])('refuses %s', (_, bytes, message) => {
    expect(() => read(bytes)).toThrow(RangeError);
    expect(() => read(bytes)).toThrow(message);
  });

  test('refuses more triangles than asked for, text and binary, at the limit and not below', () => {
    for (const file of [stlText, stlBinary]) {
      expect(() => readStl(file(tetrahedron(1)), 3)).toThrow('it has more than 3 triangles; thin it out');
      expect(readStl(file(tetrahedron(1)), 4).triangles).toHaveLength(12);
    }
  });

  test('junk never does more than throw a RangeError', () => {
    const start = fc.constantFrom('solid', 'solid a\n', `solid a\n${FACET}`, '');
    fc.assert(
      fc.property(start, fc.uint8Array({ maxLength: 200 }), (begin, tail) => {
        try {
          expect(read(new Uint8Array([...text(begin), ...tail])).positions.every(Number.isFinite)).toBe(true);
        } catch (error) {
          expect(error).toBeInstanceOf(RangeError);
        }
      }),
      { numRuns: 500 },
    );
  });

  test('two hundred thousand triangles of text are read in a few seconds', () => {
    const many = stlText(Array.from({ length: 50_000 }, () => tetrahedron(7.25)).flat());
    const begin = performance.now();
    expect(readStl(many, 2_000_000).triangles).toHaveLength(600_000);
    expect(performance.now() - begin).toBeLessThan(20_000);
  });
});
