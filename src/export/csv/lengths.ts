import type { Plan } from '../../params/plan.js';
import { bendsOf, type RoutedPrimary } from '../../routing/routed.js';
import { targetFrom } from '../../tuning/targets.js';
import type { OutputFile } from '../output-file.js';
import { csvBytes } from './csv.js';

/** Length of every primary against the target, mm at full precision. */
export function lengthsTable(plan: Plan, primaries: readonly RoutedPrimary[]): OutputFile {
  const rows = primaries.map((p) => [
    p.cylinder,
    plan.collectors[p.collector]!.name,
    p.inlet,
    p.length,
    p.target,
    p.length - p.target,
    bendsOf(p),
    targetFrom(plan),
  ]);
  return {
    path: 'lengths.csv',
    kind: 'lengths',
    bytes: csvBytes(
      ['cylinder', 'collector', 'inlet', 'length_mm', 'target_mm', 'difference_mm', 'bends', 'target_from'],
      rows,
    ),
  };
}
