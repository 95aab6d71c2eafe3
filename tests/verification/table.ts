import { closedSystemRows } from './closed-system.js';
import { cylinderRows } from './cylinder.js';
import { pipeWaveRows } from './pipe-waves.js';
import type { VerificationRow, VerifiedRow } from './row.js';
import { shockTubeRows } from './shock-tubes.js';
import { steadyFlowRows } from './steady-flow.js';

/** Everything the gas calculation is held against. */
export const VERIFICATION: readonly VerificationRow[] = [
  ...shockTubeRows,
  ...pipeWaveRows,
  ...steadyFlowRows,
  ...closedSystemRows,
  ...cylinderRows,
];

const HEAD = ['what', 'source', 'expected', 'got', 'error', 'limit', ''];

/** The table as markdown. */
export function verificationTable(rows: readonly VerifiedRow[]): string {
  const line = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;
  return [line(HEAD), line(HEAD.map(() => '---')), ...rows.map((row) => line(cellsOf(row)))].join('\n');
}

function cellsOf({ name, source, unit, error, limit, expected, got, off, held }: VerifiedRow): string[] {
  const value = (v: number): string => `${plain(v)}${unit === '' ? '' : ` ${unit}`}`;
  const part = (v: number): string => (error === 'relative' ? `${(100 * v).toPrecision(2)} %` : value(v));
  return [name, source, value(expected), value(got), part(off), part(limit), held ? 'holds' : 'FAILS'];
}

/** Five digits, or powers of ten where they would not show. */
const plain = (v: number): string =>
  v !== 0 && (Math.abs(v) < 1e-3 || Math.abs(v) >= 1e6) ? v.toExponential(2) : String(Number(v.toPrecision(5)));
