import fc from 'fast-check';
import { expect, test } from 'vitest';
import { outlineContains } from '../../../src/geometry/outline/contains.js';
import { pointToOutline } from '../../../src/geometry/outline/distance.js';
import { flattenOutline } from '../../../src/geometry/outline/flatten.js';
import type { Outline } from '../../../src/geometry/outline/outline.js';
import { reverseOutline } from '../../../src/geometry/outline/transform.js';
import type { Vec2 } from '../../../src/geometry/vec2.js';

/** Even-odd ray through a fine polygon: another way to the same answer. */
function rayContains(outline: Outline, [x, y]: Vec2): boolean {
  const p = flattenOutline(outline, 1e-4);
  return (
    p.filter(([ax, ay], i) => {
      const [bx, by] = p[(i + 1) % p.length]!;
      return ay > y !== by > y && x < ax + ((y - ay) * (bx - ax)) / (by - ay);
    }).length %
      2 ===
    1
  );
}

// A keyhole: arcs of more and of less than half a turn, one of them running inward.
const keyhole: Outline = {
  vertices: [
    { x: -4, y: -30, bulge: 0.6 },
    { x: 4, y: -30, bulge: 0 },
    { x: 4, y: -8, bulge: 2 },
    { x: -4, y: -8, bulge: -0.3 },
  ],
};

test('agrees with a ray through a fine polygon, inside, outside and on the wrong side of every chord', () => {
  fc.assert(
    fc.property(
      fc.double({ min: -20, max: 20, noNaN: true }),
      fc.double({ min: -40, max: 20, noNaN: true }),
      (x, y) => {
        fc.pre(pointToOutline([x, y], keyhole).distance > 1e-3);
        const expected = rayContains(keyhole, [x, y]);
        expect(outlineContains(keyhole, [x, y])).toBe(expected);
        expect(outlineContains(reverseOutline(keyhole), [x, y])).toBe(expected);
      },
    ),
    { seed: 5, numRuns: 500 },
  );
});

test.each([
  [0, -8],
  [0, -30],
  [4, 0],
  [-4, -20.5],
] as const)('points in line with vertices have an answer: %d, %d', (x, y) => {
  expect(outlineContains(keyhole, [x, y])).toBe(rayContains(keyhole, [x + 1e-7, y + 1e-7]));
});
