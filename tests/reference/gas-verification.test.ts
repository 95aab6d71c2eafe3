import { describe, expect, it } from 'vitest';
import { verified } from '../verification/row.js';
import { VERIFICATION, verificationTable } from '../verification/table.js';

// every row is a test of its own: `npm run verify` prints the same rows with their errors
describe('the gas calculation against published and exact values', () => {
  it.each(VERIFICATION.map((row) => [row.name, row] as const))('%s', (_, row) => {
    const { off, limit } = verified(row);
    expect(off).toBeLessThanOrEqual(limit);
  });

  it('has a row for everything it is to be held against, and none twice', () => {
    const names = VERIFICATION.map((r) => r.name);
    expect(new Set(names).size).toBe(names.length);
    for (const what of [
      'Sod',
      'Lax',
      'Double rarefaction',
      'Left blast',
      'Smooth wave',
      'Closed-open pipe',
      'Nozzle',
    ]) {
      expect(names.some((n) => n.startsWith(what))).toBe(true);
    }
  });

  it('says so when a row does not hold', () => {
    const row = verified({ ...VERIFICATION[0]!, measure: () => ({ expected: 1, got: 1.1 }) });
    expect(row.held).toBe(false);
    expect(verificationTable([row])).toContain('| 1 | 1.1 | 10 % | 0.20 % | FAILS |');
    expect(verified({ ...row, measure: () => ({ expected: 1, got: Number.NaN }) }).held).toBe(false);
  });
});
