import type { Vec3 } from '../geometry/vec3.js';

/** A stream of numbers in [0, 1), the same for the same seed everywhere. */
export type Random = () => number;

/** Mulberry32: a small well-mixed 32-bit generator (public domain; from memory). */
export function seededRandom(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** A number from the standard normal distribution (Box and Muller, 1958). */
export function normal(random: Random): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

/** A random unit vector. */
export function randomDirection(random: Random): Vec3 {
  const x = normal(random);
  const y = normal(random);
  const z = normal(random);
  const l = Math.sqrt(x * x + y * y + z * z) || 1;
  return [x / l, y / l, z / l];
}
