/** `npm run bench`: the ratios the README names, each measured within this one run. Exits 1 when one misses its target. */
import { gasBench } from './gas.js';
import { growthBench } from './growth.js';
import { jigsBench } from './jigs.js';
import { peerBench } from './peer.js';
import { scanBench } from './scan.js';

const asked = new Set(process.argv.slice(2));
const parts = { peer: peerBench, growth: growthBench, scan: scanBench, jigs: jigsBench, gas: gasBench };
let held = true;
for (const [name, run] of Object.entries(parts)) {
  if (asked.size > 0 && !asked.has(name)) continue;
  held = (await run()) && held;
}
process.exitCode = held ? 0 : 1;
