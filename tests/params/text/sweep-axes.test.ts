import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { designAt, designCount, planTextWith, sweepAxis } from '../../../src/params/text/sweep-axes.js';
import { BASE } from '../base-plan.js';

describe('an axis of a sweep', () => {
  test.each([
    ['runners.length=700:720:10', [700, 710, 720]],
    ['runners.length=0:1:0.1', [0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1]],
    ['runners.length=5:5:1', [5]],
    ['runners.length=5:9:3', [5, 8]],
    ['tube.od=42.4,1.75 in, 38', [42.4, '1.75 in', 38]],
  ])('%s', (text, values) => {
    expect(sweepAxis(text)).toEqual({ field: text.split('=')[0], values });
  });

  test.each([
    ['runners.length', /FIELD=FROM:TO:STEP/],
    ['=1:2:1', /FIELD=/],
    ['runners.length=', /FIELD=/],
    ['runners..length=1', /a field such as/],
    ['a=1:2', /three numbers/],
    ['a=1:2:0', /above zero/],
    ['a=2:1:1', /TO is not below FROM/],
    ['a=1:2:1:1', /three numbers/],
    ['a=0:1e9:1', /at most 10000/],
    ['a=1,,2', /empty/],
  ])('%s is refused', (text, words) => {
    expect(() => sweepAxis(text)).toThrow(words);
  });
});

test('the designs are all combinations, the last field fastest', () => {
  const axes = [sweepAxis('a=1,2'), sweepAxis('b=10:30:10')];
  expect(designCount(axes)).toBe(6);
  expect(Array.from({ length: 6 }, (_, i) => designAt(axes, i).join(' '))).toEqual([
    '1 10',
    '1 20',
    '1 30',
    '2 10',
    '2 20',
    '2 30',
  ]);
  expect(() => designCount([...axes, sweepAxis('a=3')])).toThrow(/varied twice/);
  expect(() => designCount([])).toThrow(/at least one/);
  const long = Array.from({ length: 10_000 }, (_, i) => i);
  const wide = ['a', 'b'].map((field) => ({ field, values: long }));
  expect(() => designCount(wide)).toThrow(/at most 10000000/);
});

describe('a plan with other values', () => {
  test('differs just there', () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 9999, noNaN: true }), fc.integer({ min: -500, max: 500 }), (length, y) => {
        const axes = [sweepAxis('runners.length=1'), sweepAxis('head.ports.1.at.1=1')];
        const changed = parse(planTextWith(BASE, axes, [length, y]));
        const expected = parse(BASE);
        expected.runners.length = length;
        expected.head.ports[1].at[1] = y;
        expect(changed).toEqual(expected);
      }),
    );
  });

  test.each([
    ['runners.lenght', /does not give it/],
    ['head.ports', /more than one value/],
    ['head.ports.7.at.0', /does not give it/],
  ])('%s cannot be varied', (field, words) => {
    expect(() => planTextWith(BASE, [{ field, values: [1] }], [1])).toThrow(words);
  });
});
