import fc from 'fast-check';
import { expect, test } from 'vitest';
import { distance2, type Vec2 } from '../../../src/geometry/vec2.js';
import { nearestOnSpine, spineOf } from '../../../src/parts/flange/spine.js';

test('ports in a row are joined to their neighbours, however they are listed', () => {
  const row: Vec2[] = [
    [0, 0],
    [270, 0],
    [90, 2],
    [180, -1],
  ];
  const pairs = spineOf(row).map(({ a, b }) => [row[a]![0], row[b]![0]].sort((x, y) => x - y));
  expect(pairs).toEqual(
    expect.arrayContaining([
      [0, 90],
      [90, 180],
      [180, 270],
    ]),
  );
});

test('joins all points with one link less than there are points, none longer than a chain in order (seed 23)', () => {
  const point = fc.tuple(fc.integer({ min: -200, max: 200 }), fc.integer({ min: -50, max: 50 }));
  fc.assert(
    fc.property(fc.uniqueArray(point, { minLength: 1, maxLength: 9, selector: (p) => p.join() }), (points) => {
      const links = spineOf(points);
      expect(links).toHaveLength(points.length - 1);
      const reached = new Set([0]);
      for (const { a, b } of links) {
        expect(reached.has(a)).toBe(true);
        reached.add(b);
      }
      expect(reached.size).toBe(points.length);
      const total = links.reduce((sum, { a, b }) => sum + distance2(points[a]!, points[b]!), 0);
      const chain = points.slice(1).reduce((sum, p, i) => sum + distance2(points[i]!, p), 0);
      expect(total).toBeLessThanOrEqual(chain + 1e-9);
    }),
    { seed: 23, numRuns: 100 },
  );
});

test('the nearest point of the spine lies beside, at the end, or on the only port', () => {
  const row: Vec2[] = [
    [0, 0],
    [90, 0],
  ];
  expect(nearestOnSpine(row, spineOf(row), [45, 30])).toEqual([45, 0]);
  expect(nearestOnSpine(row, spineOf(row), [-40, 30])).toEqual([0, 0]);
  expect(nearestOnSpine([[5, 6]], [], [45, 30])).toEqual([5, 6]);
});
