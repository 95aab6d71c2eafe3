/**
 * `npm run verify`: the gas calculation against published and exact values, as the page docs/gas-verification.md holds it. Exits 1 when a
 * row misses its limit.
 */
import { verified } from '../verification/row.js';
import { VERIFICATION, verificationTable } from '../verification/table.js';

console.log(
  `# The gas calculation against published and exact values\n\nPrinted by \`npm run verify\`; each row is a test of its own, and fails when its error passes its limit.\n`,
);
const rows = VERIFICATION.map(verified);
console.log(verificationTable(rows));
const failed = rows.filter((r) => !r.held).length;
console.log(failed === 0 ? `\nall ${rows.length} rows hold` : `\n${failed} of ${rows.length} rows FAIL`);
process.exitCode = failed === 0 ? 0 : 1;
