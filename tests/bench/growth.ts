import { solve } from '../../src/routing/solve.js';
import { growingHeader, SIZES } from '../support/growing-header.js';
import { planOfFile } from '../support/layouts.js';
import { processorTime } from './processor-time.js';
import { median } from './quantile.js';

const SEEDS = [1, 2, 3, 4, 5, 6, 7];
const TARGET = 1.5;

/** How routing time grows from 1 to 12 primaries: the exponent fitted to the medians, and that between the ends. */
export function growthBench(): boolean {
  const timed = (count: number, seed: number): number => {
    const plan = planOfFile(growingHeader(count, seed));
    const started = processorTime();
    const solution = solve(plan);
    const ms = 1000 * (processorTime() - started);
    if (!solution.ok) throw new Error(`header of ${count}, seed ${seed}: ${JSON.stringify(solution.miss.broken[0])}`);
    return ms;
  };
  for (const seed of SEEDS) timed(4, seed); // warm
  const times = SIZES.map((n) => median(SEEDS.map((seed) => timed(n, seed))));
  const exponent = slope(SIZES.map(Math.log), times.map(Math.log));
  const ends = Math.log(times.at(-1)! / times[0]!) / Math.log(SIZES.at(-1)! / SIZES[0]!);
  console.log(`growth: ${SIZES.map((n, i) => `${n}: ${times[i]!.toFixed(0)} ms`).join(', ')}`);
  console.log(
    `growth from 1 to 12 primaries: n^${exponent.toFixed(2)} fitted, n^${ends.toFixed(2)} from end to end (at most n^${TARGET})`,
  );
  return Math.max(exponent, ends) <= TARGET;
}

/** Slope of the line of least squares. */
function slope(x: readonly number[], y: readonly number[]): number {
  const mean = (v: readonly number[]): number => v.reduce((a, b) => a + b, 0) / v.length;
  const [mx, my] = [mean(x), mean(y)];
  const xy = x.reduce((sum, v, i) => sum + (v - mx) * (y[i]! - my), 0);
  return xy / x.reduce((sum, v) => sum + (v - mx) ** 2, 0);
}
