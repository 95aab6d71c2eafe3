import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { SweptDesign } from '../../../src/cli/sweep/sweep-designs.js';
import { mergedSweep, readSweep, type SweepHead } from '../../../src/cli/sweep/sweep-lines.js';

const COUNT = 12;
const head = (shard: [number, number]): SweepHead => ({
  schema: 'evenrun-sweep-1',
  plan: 'four',
  plan_hash: 'abc',
  vary: [{ field: 'runners.length', values: Array.from({ length: COUNT }, (_, i) => 700 + i) }],
  effort: 100,
  designs: COUNT,
  shard,
});
const design = (i: number): SweptDesign => ({
  design: i,
  values: { 'runners.length': 700 + i },
  outcome: 'no route',
  binds: [`limit ${i}`],
});
const text = (lines: readonly object[]): string => `${lines.map((l) => JSON.stringify(l)).join('\n')}\n`;
const part = (k: number, n: number): string =>
  text([
    head([k, n]),
    ...Array.from({ length: COUNT }, (_, i) => i)
      .filter((i) => i % n === k - 1)
      .map(design),
  ]);

describe('parts of a sweep', () => {
  test('merge to the same bytes whatever their number and order', () => {
    const whole = part(1, 1);
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: COUNT }).chain((n) =>
          fc.shuffledSubarray(
            Array.from({ length: n }, (_, i) => i + 1),
            { minLength: n },
          ),
        ),
        (ks) => {
          const files = ks.map((k) => ({ name: `part-${k}`, text: part(k, ks.length) }));
          expect(mergedSweep(files)).toBe(whole);
          // a part that was run twice changes nothing
          expect(mergedSweep([...files, files[0]!])).toBe(whole);
        },
      ),
    );
  });

  test('that do not make a whole are refused, each with its reason', () => {
    const one = { name: 'one', text: part(1, 2) };
    expect(() => mergedSweep([one])).toThrow(/6 of 12 designs are missing: 1, 3, 5, 7, 9, \.\.\./);
    const other = { name: 'two', text: text([{ ...head([2, 2]), plan_hash: 'abd' }]) };
    expect(() => mergedSweep([one, other])).toThrow(/two is not of the same sweep as one/);
    const strange = text([head([2, 2]), { ...design(0), outcome: 'refused', problems: [] }]);
    expect(() => mergedSweep([one, { name: 'two', text: strange }])).toThrow(
      /one and two have different answers for design 0/,
    );
  });

  test('a line that was cut off is named', () => {
    const cut = part(1, 1).slice(0, -20);
    expect(() => readSweep(cut, 'part.jsonl')).toThrow(/part\.jsonl:13: .*cut off/);
    expect(() => readSweep('{}\n', 'x')).toThrow(/x:1: not the head/);
    expect(() => readSweep(text([head([1, 1]), { design: 99 }]), 'x')).toThrow(/x:2: not a design/);
  });
});
