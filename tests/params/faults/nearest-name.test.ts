import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { editDistance, nearestName } from '../../../src/params/faults/nearest-name.js';

describe('nearest name', () => {
  // The usual worked examples of the Levenshtein distance.
  test.each([
    ['kitten', 'sitting', 3],
    ['saturday', 'sunday', 3],
    ['', 'abc', 3],
    ['abc', 'abc', 0],
  ])('from %s to %s takes %i letters', (a, b, d) => {
    expect(editDistance(a, b)).toBe(d);
  });

  test('is symmetric and keeps the triangle inequality', () => {
    const word = fc.string({ maxLength: 8 });
    fc.assert(
      fc.property(word, word, word, (a, b, c) => {
        expect(editDistance(a, b)).toBe(editDistance(b, a));
        expect(editDistance(a, c)).toBeLessThanOrEqual(editDistance(a, b) + editDistance(b, c));
      }),
    );
  });

  test.each([
    ['botls', 'bolts'],
    ['Ports', 'ports'],
    ['prots', 'ports'],
    ['firing order', 'firing_order'],
    ['min-straight', 'min_straight'],
    ['colour', null],
    ['x', null],
  ])('%s means %s', (typed, meant) => {
    expect(nearestName(typed, ['bolts', 'ports', 'firing_order', 'min_straight', 'od'])).toBe(meant);
  });

  test('a name of a thousand letters costs nothing', () => {
    expect(nearestName('a'.repeat(1e6), ['bolts'])).toBeNull();
  });
});
