// Gives the program what strangers may: `npm run hard-input [-- WORD]`, only the cases with this word. Prints a table.
import { FILES } from '../support/hard-input/files.js';
import { FOLDERS } from '../support/hard-input/folders.js';
import { PLAN_TEXTS } from '../support/hard-input/plan-text.js';
import { runHardCase } from '../support/hard-input/run-case.js';

const cases = [...PLAN_TEXTS, ...FILES, ...FOLDERS].filter((c) => c.what.includes(process.argv[2] ?? ''));
const cell = (text: string): string => (text.length > 150 ? `${text.slice(0, 150)}...` : text).replaceAll('|', '\\|');
let failed = 0;

process.stdout.write('| given | exit | said | s | MB |\n|---|---|---|---|---|\n');
for (const c of cases) {
  const { exit, said, seconds, peak, faults } = await runHardCase(c);
  const memory = peak === null ? '-' : peak.toFixed(0);
  process.stdout.write(`| ${c.what} | ${exit} | ${cell(said)} | ${seconds.toFixed(1)} | ${memory} |\n`);
  for (const fault of faults) process.stdout.write(`FAULT ${c.what}: ${fault}\n`);
  if (faults.length > 0) failed += 1;
}
process.stdout.write(`\n${cases.length} hard inputs, ${failed} not answered as they must be.\n`);
process.exitCode = failed === 0 ? 0 : 1;
