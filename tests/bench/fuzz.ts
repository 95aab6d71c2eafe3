// Reads mutated plans, as-built files, drawings, traced points and scans, and routes some: `npm run fuzz [-- CASES SEED]`.
import { writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type FuzzKind, fuzzCase, kindOf } from '../support/fuzz/cases.js';

const cases = Number(process.argv[2] ?? 100_000);
const seed = Number(process.argv[3] ?? 1);
const tallies = new Map<
  FuzzKind,
  { cases: number; taken: number; refused: number; noRoute: number; faults: number; longest: number }
>();
let faults = 0;

for (let n = 0; n < cases; n++) {
  const kind = kindOf(n);
  const { end, fault, milliseconds, text } = fuzzCase(kind, seed * 1_000_003 + n);
  const t = tallies.get(kind) ?? { cases: 0, taken: 0, refused: 0, noRoute: 0, faults: 0, longest: 0 };
  tallies.set(kind, t);
  t.cases += 1;
  if (fault === null) t[end === 'no route' ? 'noRoute' : end] += 1;
  t.longest = Math.max(t.longest, milliseconds);
  if (fault === null) continue;
  t.faults += 1;
  faults += 1;
  const file = join(tmpdir(), `fuzz-${seed}-${n}.txt`);
  if (faults <= 20) {
    writeFileSync(file, text);
    process.stderr.write(`case ${n} (${kind}), kept as ${file}: ${fault.slice(0, 1500)}\n`);
  }
}

const rows = [...tallies].map(
  ([kind, t]) =>
    `| ${kind} | ${t.cases} | ${t.taken} | ${t.refused} | ${t.noRoute} | ${t.faults} | ${(t.longest / 1000).toFixed(1)} s |`,
);
process.stdout.write(`${cases} cases from seed ${seed}, ${faults} faults.
| what was read | cases | taken | refused in words | no route | faults | longest |
|---|---|---|---|---|---|---|
${rows.join('\n')}
`);
process.exitCode = faults === 0 ? 0 : 1;
