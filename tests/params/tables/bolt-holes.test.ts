import { describe, expect, test } from 'vitest';
import { BOLT_THREADS, clearanceHole, threadDiameter } from '../../../src/params/tables/bolt-holes.js';

describe('bolt holes', () => {
  // ISO 273, clearance holes, series fine, medium, coarse; seen in a published copy of the table.
  test.each([
    ['M6', 6, 6.4, 6.6, 7],
    ['M8', 8, 8.4, 9, 10],
    ['M10', 10, 10.5, 11, 12],
    ['M12', 12, 13, 13.5, 14.5],
  ] as const)('%s of ISO 273', (thread, nominal, fine, medium, coarse) => {
    expect(threadDiameter(thread)).toBe(nominal);
    expect(clearanceHole(thread, 'fine')).toBe(fine);
    expect(clearanceHole(thread, 'medium')).toBe(medium);
    expect(clearanceHole(thread, 'coarse')).toBe(coarse);
  });

  // ASME B18.2.8, Machinery's Handbook 31, pp. 1741-1743: normal drill and least loose hole; the close holes are from memory.
  test.each([
    ['5/16', 0.3125, 0.328, 0.34375, 0.359],
    ['3/8', 0.375, 0.391, 0.40625, 0.422],
    ['7/16', 0.4375, 0.453, 0.46875, 0.484],
  ] as const)('%s in of ASME B18.2.8', (thread, nominal, close, normal, loose) => {
    expect(threadDiameter(thread) / 25.4).toBeCloseTo(nominal, 12);
    expect(clearanceHole(thread, 'fine') / 25.4).toBeCloseTo(close, 12);
    expect(clearanceHole(thread, 'medium') / 25.4).toBeCloseTo(normal, 12);
    expect(clearanceHole(thread, 'coarse') / 25.4).toBeCloseTo(loose, 12);
  });

  test('a looser fit is a larger hole, and every hole passes its bolt', () => {
    for (const thread of BOLT_THREADS) {
      const holes = (['fine', 'medium', 'coarse'] as const).map((fit) => clearanceHole(thread, fit));
      expect(holes[0]).toBeGreaterThan(threadDiameter(thread));
      expect(holes[1]).toBeGreaterThan(holes[0]!);
      expect(holes[2]).toBeGreaterThan(holes[1]!);
    }
  });
});
