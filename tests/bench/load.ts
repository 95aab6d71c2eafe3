// The program under load: `npm run load [-- COUNT [scan|batch|sweep ...]]`, COUNT plans in the batch.
import { batchLoad } from './load-batch.js';
import { scanLoad } from './load-scan.js';
import { sweepLoad } from './load-sweep.js';

const parts = { scan: scanLoad, batch: batchLoad, sweep: sweepLoad };
const [first, ...rest] = process.argv.slice(2);
const counted = first !== undefined && /^\d+$/.test(first);
const asked = new Set(counted ? rest : process.argv.slice(2));
let held = true;
for (const [name, run] of Object.entries(parts)) {
  if (asked.size > 0 && !asked.has(name)) continue;
  held = (await run(counted ? Number(first) : 500)) && held;
}
process.exitCode = held ? 0 : 1;
