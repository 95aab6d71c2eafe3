import { degrees } from '../../geometry/angle.js';
import type { Plan } from '../../params/plan.js';
import { piecesOf } from '../../parts/tube/pieces.js';
import { cutsOf } from '../../parts/tube/tube-cuts.js';
import type { Gap } from '../../routing/clearance.js';
import { bendsOf, type RoutedPrimary, type RoutedSecondary } from '../../routing/routed.js';
import type { OutputFile } from '../output-file.js';
import { leastGap } from '../summary/summary.js';
import type { Summary } from '../summary/summary-schema.js';
import { bendTable, secondaryBendTable } from './bend-table.js';
import { csvBytes } from './csv.js';
import { cutListTable } from './cut-list.js';

/** What tells one set of routes from another. */
export interface AlternativeSource {
  readonly plan: Plan;
  readonly primaries: readonly RoutedPrimary[];
  readonly secondaries: readonly RoutedSecondary[];
  readonly gaps: readonly Gap[];
  readonly cost: number;
}

type Alternative = Summary['alternatives'][number];

/** One row of the comparison: the first is the one that is built. */
export function alternativeOf(source: AlternativeSource, number: number): Alternative {
  const { plan, primaries, secondaries, gaps, cost } = source;
  const tubes = [...primaries, ...secondaries];
  const bends = tubes.flatMap((t) => t.path.segments.filter((s) => s.kind === 'bend'));
  const least = tubes.map((t) => leastGap(gaps, t.id)).filter((g) => g !== null);
  return {
    number,
    order: plan.collectors.map((c, i) => `${c.name}: ${orderAt(i, tubes)}`).join('; '),
    bends: tubes.reduce((sum, t) => sum + bendsOf(t), 0),
    turning_deg: degrees(bends.reduce((sum, b) => sum + b.angle, 0)),
    least_clr_mm: bends.length > 0 ? Math.min(...bends.map((b) => b.clr)) : null,
    least_gap_mm: least.length > 0 ? Math.min(...least) : null,
    pieces: tubes.flatMap((t) => piecesOf(plan, t)).length,
    length_mm: plan.runners.length,
    cost,
  };
}

/** Tubes at the inlets of a collector, from inlet 1. */
const orderAt = (collector: number, tubes: readonly (RoutedPrimary | RoutedSecondary)[]): string =>
  tubes
    .filter((t) => t.collector === collector)
    .sort((a, b) => a.inlet - b.inlet)
    .map((t) => t.id)
    .join('-');

/** alternatives.csv and, for every set of routes after the first, its tables under alternatives/<number>/. */
export function alternativeFiles(sources: readonly AlternativeSource[]): OutputFile[] {
  const rows = sources.map((s, i) => alternativeOf(s, i + 1));
  const header = [
    'number',
    'order',
    'bends',
    'turning_deg',
    'least_clr_mm',
    'least_gap_mm',
    'pieces',
    'length_mm',
    'cost',
  ] as const;
  const table = csvBytes(
    header,
    rows.map((r) => header.map((h) => r[h])),
  );
  const tables = sources
    .slice(1)
    .flatMap((s, i) =>
      [
        bendTable(s.primaries),
        ...(s.secondaries.length > 0 ? [secondaryBendTable(s.secondaries)] : []),
        cutListTable([...s.primaries, ...s.secondaries].map((t) => cutsOf(s.plan, t))),
      ].map((f) => ({ ...f, path: `alternatives/${i + 2}/${f.path}` })),
    );
  return [{ path: 'alternatives.csv', kind: 'alternatives', bytes: table }, ...tables];
}
