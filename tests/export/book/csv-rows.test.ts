import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { csvRows, numberOf, wordsOf } from '../../../src/export/book/csv-rows.js';
import { csvBytes } from '../../../src/export/csv/csv.js';
import type { OutputFile } from '../../../src/export/output-file.js';

const file = (bytes: Uint8Array): OutputFile => ({ path: 'table.csv', kind: 'stock', bytes });

describe('reading our own tables', () => {
  it('gives back what was written, whatever it is', () => {
    const cell = fc.oneof(
      fc.string().filter((s) => !/^'[=+\-@\t\r]/.test(s)),
      fc.double({ noNaN: true, noDefaultInfinity: true }).map((x) => x + 0),
      fc.constant(null),
    );
    fc.assert(
      fc.property(fc.array(fc.tuple(cell, cell), { minLength: 1 }), (rows) => {
        const read = csvRows([file(csvBytes(['a', 'b'], rows))], 'table.csv');
        expect(read.map((r) => [wordsOf(r, 'a'), wordsOf(r, 'b')])).toEqual(
          rows.map((r) => r.map((c) => (c === null ? '' : String(c === 0 ? 0 : c)))),
        );
      }),
    );
  });

  it('has no rows where there is no file', () => {
    expect(csvRows([], 'table.csv')).toEqual([]);
  });

  it('tells an empty cell from nought, and refuses what is no number or no column', () => {
    const [row] = csvRows([file(csvBytes(['a', 'b', 'c'], [[0, null, 'x']]))], 'table.csv');
    expect(numberOf(row!, 'a')).toBe(0);
    expect(numberOf(row!, 'b')).toBeNull();
    expect(() => numberOf(row!, 'c')).toThrow(/no number/);
    expect(() => wordsOf(row!, 'd')).toThrow(/no column d/);
  });
});
