/** `npm run verify`: the gas calculation against published and exact values, as a table. Exits 1 when a row misses its limit. */
import { verified } from '../verification/row.js';
import { VERIFICATION, verificationTable } from '../verification/table.js';

const rows = VERIFICATION.map(verified);
console.log(verificationTable(rows));
const failed = rows.filter((r) => !r.held).length;
console.log(failed === 0 ? `\nall ${rows.length} rows hold` : `\n${failed} of ${rows.length} rows FAIL`);
process.exitCode = failed === 0 ? 0 : 1;
