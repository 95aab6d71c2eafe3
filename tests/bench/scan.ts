import { stringify } from 'yaml';
import { readPlan } from '../../src/params/read-plan.js';
import { routeHeader } from '../../src/pipeline.js';
import { growingHeader } from '../support/growing-header.js';
import { wavyWall } from '../support/wavy-wall.js';
import { processorTime } from './processor-time.js';
import { median } from './quantile.js';

const SEEDS = [1, 2, 3, 4, 5, 6, 7];
const TARGET = 2;

/** What a scan of 200,000 triangles costs: reading, routing and checking a four with it, over the same without. */
export function scanBench(): boolean {
  const bytes = wavyWall();
  const keep_out = [{ name: 'bay wall', kind: 'mesh', file: 'wall.stl', unit: 'mm', clearance: 12 }];
  const timed = (seed: number, extra: object): number => {
    const yaml = stringify(growingHeader(4, seed, extra));
    const started = processorTime();
    const read = readPlan(yaml, 'plan.yaml', () => bytes);
    if (!read.ok) throw new Error(read.text);
    const routing = routeHeader(read.plan);
    const ms = 1000 * (processorTime() - started);
    if (!routing.ok) throw new Error(`seed ${seed}: ${JSON.stringify(routing.miss)}`);
    return ms;
  };
  timed(1, {});
  timed(1, { keep_out });
  const without: number[] = [];
  const beside: number[] = [];
  for (const seed of SEEDS) {
    without.push(timed(seed, {}));
    beside.push(timed(seed, { keep_out }));
  }
  const ratio = median(beside) / median(without);
  console.log(
    `scan of 200,000 triangles: ${median(beside).toFixed(0)} ms with it, ${median(without).toFixed(0)} ms without: ` +
      `${ratio.toFixed(2)} times the time (at most ${TARGET})`,
  );
  return ratio <= TARGET;
}
