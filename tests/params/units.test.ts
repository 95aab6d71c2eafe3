import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { inches, millimetres, parseLength } from '../../src/params/units.js';

describe('lengths', () => {
  test('the inch is exactly 25.4 mm (international yard and pound agreement, 1959)', () => {
    expect(millimetres(1, 'in')).toBe(25.4);
    expect(parseLength('1 in', 'mm')).toBe(25.4);
    expect(parseLength(1.75, 'in')).toBe(44.45);
    expect(parseLength(2.375, 'in')).toBe(60.325);
  });

  test.each([
    ['44.45 mm', 44.45],
    ['44.45mm', 44.45],
    ['  1.75 in ', 44.45],
    ['1.75"', 44.45],
    ['-2 in', -50.8],
    ['+.5 in', 12.7],
    ['1e1 mm', 10],
    ['3/8 in', 9.525],
    ['1 3/4 in', 44.45],
    ['1-3/4"', 44.45],
    ['-1 1/2 in', -38.1],
  ])('%s is %f mm in a plan of either unit', (text, mm) => {
    expect(parseLength(text, 'mm')).toBeCloseTo(mm, 12);
    expect(parseLength(text, 'in')).toBeCloseTo(mm, 12);
  });

  test.each(['', 'abc', '44.45', '44.45 cm', '1 1/0 in', '1,75 in', '12 mm 3', 'mm', '1.2.3 mm', 'NaN mm', '1e999 mm'])(
    '%j is no length',
    (text) => {
      expect(parseLength(text, 'mm')).toBeNull();
    },
  );

  test('numbers that are not finite are no lengths', () => {
    expect(parseLength(Number.NaN, 'mm')).toBeNull();
    expect(parseLength(Number.POSITIVE_INFINITY, 'in')).toBeNull();
  });

  test('a number in the plan unit and the same number as text agree, and inches come back', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e4, max: 1e4, noNaN: true }),
        fc.constantFrom('mm' as const, 'in' as const),
        (v, u) => {
          expect(parseLength(`${v} ${u}`, 'mm')).toBe(parseLength(v, u));
          expect(inches(millimetres(v, 'in'))).toBeCloseTo(v, 6);
        },
      ),
    );
  });
});
