import type { Outline } from '../../src/geometry/outline/outline.js';
import { pointAlong, sideLength, sidesOf } from '../../src/geometry/outline/sides.js';
import type { Vec2 } from '../../src/geometry/vec2.js';

/** Numbers from 0 to 1, the same for the same seed: a linear congruence, Knuth's MMIX constants cut to 32 bits (from memory). */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

/** Points evenly along an outline, each off by up to `noise` mm in x and y, as a probe or a scan gives them. */
export function noisyPoints(outline: Outline, count: number, noise: number, seed: number): Vec2[] {
  const random = randomFrom(seed);
  const sides = sidesOf(outline);
  const total = sides.reduce((sum, s) => sum + sideLength(s), 0);
  return Array.from({ length: count }, (_, i): Vec2 => {
    let left = ((i + 0.3) * total) / count;
    const side = sides.find((s) => {
      if (left <= sideLength(s)) return true;
      left -= sideLength(s);
      return false;
    })!;
    const [x, y] = pointAlong(side, left / sideLength(side));
    return [x + noise * (2 * random() - 1), y + noise * (2 * random() - 1)];
  });
}
