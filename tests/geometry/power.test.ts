import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { power } from '../../src/geometry/power.js';

const SOURCES = fileURLToPath(new URL('../../src/', import.meta.url));

describe('a power', () => {
  it('is that of whole exponents and of roots, which products and square roots give', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 1e3, noNaN: true }), (x) => {
        for (const [y, exact] of [
          [1, x],
          [2, x * x],
          [3, x * x * x],
          [-1, 1 / x],
          [0.5, Math.sqrt(x)],
          [1.5, x * Math.sqrt(x)],
        ] as const) {
          expect(Math.abs(power(x, y) / exact - 1)).toBeLessThan(1e-14);
        }
      }),
    );
    expect([power(1, 3.7), power(0, 1.4), power(5, 0)]).toEqual([1, 0, 1]);
  });

  it("is nowhere left to the engine's own operator, whose last digit differs between versions", () => {
    // a square is a product and a power of two is exact: those two stay; in comments anything may stand
    const found = readdirSync(SOURCES, { recursive: true, encoding: 'utf8' })
      .filter((f) => f.endsWith('.ts'))
      .flatMap((f) => {
        const code = readFileSync(join(SOURCES, f), 'utf8').replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, '');
        const rest = code.replace(/\*\* 2(?![\d.*])/g, '').replace(/(?<![\d.])2 \*\* /g, '');
        return /\*\*|Math\.pow/.test(rest) ? [f] : [];
      });
    expect(found).toEqual([]);
  });
});
