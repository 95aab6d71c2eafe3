import { describe, expect, it } from 'vitest';
import { noRoute } from '../../src/cli/report/no-route.js';
import type { Miss } from '../../src/routing/miss.js';

const MISS: Miss = {
  broken: [
    { kind: 'gap', place: 'cylinders 1 and 2', value: 2, limit: 6, family: 'gap 1 2', tubes: [0, 1] },
    { kind: 'angle', place: 'cylinder 1, bend 1', value: -50.8, limit: -25.4, family: 'angle 0 50.800', tubes: [0] },
  ],
  conflict: [],
  relaxations: [{ words: 'runners.length', from: 762, to: 787.4, unit: 'mm', worked: true }],
  nearest: [{ name: 'cylinder 1', inlet: 1, bends: 2, length: 760, target: 760, gap: 2 }],
  timedOut: true,
};

describe('why there is no route', () => {
  it('is said in mm of a plan in mm', () => {
    const { message } = noRoute(MISS, 'mm');
    expect(message).toContain('gap 2.0 mm, 6.0 mm wanted: 4.0 mm short');
    expect(message).toContain('at 50.8 mm CLR');
    expect(message).toContain('runners.length: 762 -> 787.4 mm');
  });

  it('is said in inches, and in nothing else, of a plan in inches; its details stay in mm', () => {
    const { message, details } = noRoute(MISS, 'in');
    expect(message).toContain('gap 0.079 in, 0.236 in wanted: 0.157 in short');
    expect(message).toContain('at 2 in CLR');
    expect(message).toContain('runners.length: 30 -> 31 in');
    expect(message).toContain('29.921 in');
    expect(message).not.toMatch(/\bmm\b/);
    expect(details.nearest).toMatchObject([{ length_mm: 760 }]);
  });
});
