import { describe, expect, it } from 'vitest';
import { csvBytes } from '../../../src/export/csv/csv.js';

const text = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);

describe('CSV', () => {
  it('keeps numbers at full precision, nothing for null, and never -0', () => {
    expect(text(csvBytes(['a', 'b', 'c'], [[0.1 + 0.2, null, -0]]))).toBe('a,b,c\r\n0.30000000000000004,,0\r\n');
  });

  it('quotes commas, quotes and line ends as RFC 4180 has it', () => {
    expect(text(csvBytes(['x'], [['a,b'], ['say "no"'], ['two\nlines']]))).toBe(
      'x\r\n"a,b"\r\n"say ""no"""\r\n"two\nlines"\r\n',
    );
  });

  it('defuses text that a spreadsheet would run', () => {
    expect(text(csvBytes(['x'], [['=1+1'], ['@SUM(A1)'], ['+2'], ['-3']]))).toBe(
      "x\r\n'=1+1\r\n'@SUM(A1)\r\n'+2\r\n'-3\r\n",
    );
  });

  it('refuses a number that is none', () => {
    expect(() => csvBytes(['x'], [[Number.NaN]])).toThrow(/finite/);
  });
});
