/**
 * `npm run layouts [-- COUNT [FIRST]]`: routes random layouts that are known to be solvable, judges every result by its bend table
 * alone, and prints how many were solved and how long it took. Exits 1 when fewer than 98 of 100 were.
 */
import { bendTable } from '../../src/export/csv/bend-table.js';
import { readPlan } from '../../src/params/read-plan.js';
import { solve } from '../../src/routing/solve.js';
import { backwardLayout } from '../support/backward-layouts.js';
import { tubesFromBendTable } from '../support/bend-table-length.js';
import { routeFaults } from '../support/route-faults.js';
import { quantile } from './quantile.js';

const [count, first] = [Number(process.argv[2] ?? 100), Number(process.argv[3] ?? 1)];
const times: number[] = [];
const byKind = new Map<string, { tried: number; solved: number }>();

for (let seed = first; seed < first + count; seed++) {
  const layout = backwardLayout(seed);
  const of = byKind.get(layout.kind) ?? { tried: 0, solved: 0 };
  byKind.set(layout.kind, of);
  of.tried++;
  const started = performance.now();
  const read = readPlan(layout.yaml, `layout-${seed}.yaml`);
  if (!read.ok) throw new Error(read.text);
  const end = started + 1000 * read.plan.runners.budget;
  const solution = solve(read.plan, { goOn: () => performance.now() < end });
  const seconds = (performance.now() - started) / 1000;
  times.push(seconds);
  const faults = solution.ok
    ? routeFaults(read.plan, tubesFromBendTable(new TextDecoder().decode(bendTable(solution.sets[0]!.primaries).bytes)))
    : solution.miss.broken.map((b) => `${b.kind} ${b.place}: ${b.value.toFixed(2)} of ${b.limit.toFixed(2)}`);
  if (solution.ok && faults.length === 0) of.solved++;
  else {
    const which = `seed ${seed} (${layout.kind}, ${layout.plan.ports.length} tubes, ${seconds.toFixed(1)} s)`;
    console.log(`${which}: ${solution.ok ? 'WRONG' : 'no route'}: ${faults.join('; ')}`);
  }
}

const solved = [...byKind.values()].reduce((sum, k) => sum + k.solved, 0);
for (const [kind, k] of byKind) console.log(`${kind}: ${k.solved} of ${k.tried}`);
const at = (q: number): string => `${quantile(times, q).toFixed(2)} s`;
console.log(`${solved} of ${count} solved; time median ${at(0.5)}, 90 % ${at(0.9)}, longest ${at(1)}`);
process.exitCode = solved >= 0.98 * count ? 0 : 1;
