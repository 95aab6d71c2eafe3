import type { Amount } from './relax.js';

/** Targets as parts of the planned one, nearest first. */
const LONGER = [1.03, 1.08, 1.15, 1.3, 1.6];
const SHORTER = [0.97, 0.92, 0.85, 0.75, 0.6];
const FEW = [1.2, 0.85, 1.5, 0.65];

/** Room over the shortest route known, which is met exactly by one route only. */
const ROOM = 1.01;

/** Other targets worth a try, mm, nearest first. `shortest` is about the shortest route's length; infinite when there is none. */
export function lengthsToTry(
  { value, grain }: Amount,
  shortest: number,
  which: 'longer' | 'shorter' | 'few',
): number[] {
  const known = Number.isFinite(shortest);
  const least = known ? ROOM * shortest : 0;
  const parts = which === 'few' ? FEW : which === 'longer' ? LONGER : SHORTER;
  const extra = known && least > value && which !== 'shorter' ? [least, 1.1 * least] : [];
  const lengths = [...extra, ...parts.map((p) => p * value)].filter((l) => l >= least);
  const rounded = lengths.map((l) => Math.ceil(l / grain) * grain);
  return which === 'few' ? rounded : rounded.sort((a, b) => (which === 'longer' ? a - b : b - a));
}
