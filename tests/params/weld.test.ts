import { describe, expect, test } from 'vitest';
import { BASE, planFrom, problemsOf } from './base-plan.js';

const weld = (fields: string): string => `${BASE}weld: ${fields}\n`;

describe('welds of the tubes', () => {
  test('add and take nothing until the shop gives its values', () => {
    expect(planFrom(BASE).weld).toEqual({ gap: 0, shrinkage: 0 });
    expect(planFrom(weld('{}')).weld).toEqual({ gap: 0, shrinkage: 0 });
  });

  test('are lengths with units of their own', () => {
    expect(planFrom(weld('{ gap: 0.8, shrinkage: 1/32 in }')).weld).toEqual({
      gap: 0.8,
      shrinkage: 0.79375,
    });
  });

  test.each([
    ['{ gap: -1 }', 'gap: expected a length from 0 mm to 10 mm, found -1 mm'],
    ['{ shrinkage: 11 }', 'shrinkage: expected a length from 0 mm to 10 mm, found 11 mm'],
    ['{ shrinkag: 1 }', 'shrinkag: unknown field; did you mean "shrinkage"?'],
  ])('%s is refused', (fields, message) => {
    expect(problemsOf(weld(fields)).map((p) => `${p.line} ${p.path}: ${p.message}`)).toEqual([`32 weld.${message}`]);
  });
});
