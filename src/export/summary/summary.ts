import { spreadOf } from '../../checks/equal-length.js';
import type { Finding } from '../../checks/finding.js';
import { passes } from '../../checks/rules.js';
import type { Plan } from '../../params/plan.js';
import type { Collector } from '../../parts/collector/collector.js';
import type { PlatePart } from '../../parts/plates/plate.js';
import type { StockBill } from '../../parts/stock/bill.js';
import type { Gap } from '../../routing/clearance.js';
import { bendsOf, type RoutedPrimary, type RoutedSecondary } from '../../routing/routed.js';
import { targetFrom } from '../../tuning/targets.js';
import { CAUTIONS } from '../cautions.js';
import { type OutputFile, textFile } from '../output-file.js';
import { collectorSummary } from './collector-summary.js';
import type { Summary } from './summary-schema.js';

/** What a summary tells of. */
export interface SummarySource {
  readonly plan: Plan;
  readonly primaries: readonly RoutedPrimary[];
  readonly secondaries: readonly RoutedSecondary[];
  readonly gaps: readonly Gap[];
  readonly collectors: readonly Collector[];
  readonly plates: readonly PlatePart[];
  readonly findings: readonly Finding[];
  /** Sets of routes to compare, the built one first; none when no others were asked for. */
  readonly alternatives: Summary['alternatives'];
  /** Null where no stock was nested. */
  readonly bill: StockBill | null;
}

/** The summary of a design and the files written with it. */
export function summaryOf(s: SummarySource, files: readonly OutputFile[]): Summary {
  return {
    schema: 'evenrun-summary-1',
    name: s.plan.name,
    primaries: s.primaries.map((p) => ({
      cylinder: p.cylinder,
      collector: s.plan.collectors[p.collector]!.name,
      inlet: p.inlet,
      length_mm: p.length,
      target_mm: p.target,
      bends: bendsOf(p),
      clearance_mm: leastGap(s.gaps, p.id),
    })),
    secondaries: s.secondaries.map((t) => ({
      from: t.id,
      collector: s.plan.collectors[t.collector]!.name,
      inlet: t.inlet,
      length_mm: t.length,
      target_mm: t.target,
      bends: bendsOf(t),
      clearance_mm: leastGap(s.gaps, t.id),
    })),
    spread_mm: spreadOf(s.primaries.map((p) => p.length)),
    tolerance_mm: s.plan.runners.tolerance,
    units: s.plan.units,
    passed: passes(s.findings),
    collectors: s.collectors.map(collectorSummary),
    plates: s.plates.map(({ plan, flat, openArea, frame }) => ({
      name: plan.name,
      pattern: plan.pattern.kind,
      for: [...plan.feeds],
      pieces: plan.count,
      at_mm: frame === null ? null : [...frame.origin],
      direction: frame === null ? null : [...frame.z],
      thickness_mm: flat.thickness,
      mass_kg: flat.mass,
      open_area_mm2: openArea,
      notes: [...flat.notes],
    })),
    stock: s.bill === null ? null : stockOf(s.bill),
    alternatives: s.alternatives,
    findings: s.findings.map((f) => ({ ...f })),
    files: files.map((f) => ({ path: f.path, kind: f.kind })),
    cautions: [...CAUTIONS],
    plan_hash: s.plan.hash,
    target_from: targetFrom(s.plan),
  };
}

const stockOf = (bill: StockBill): NonNullable<Summary['stock']> => ({
  pieces: bill.uses.length,
  minimised: bill.minimised === 'count' ? 'pieces' : 'price',
  value: bill.value,
  bound: bill.bound,
  optimal: bill.optimal,
  first_fit: bill.firstFit,
  price: bill.price,
  currency: bill.currency,
  shopping: bill.shopping.map(({ item, count, price }) => ({ item: item.name, count, price })),
  tube_mass_kg: bill.tubeMass,
  weld_length_mm: bill.weldLength,
  filler_mass_kg: bill.fillerMass,
  purge_volume_l: bill.purgeVolume,
  unmade: bill.unmade.map((u) => ({ ...u })),
});

/**
 * Least gap of a tube to anything it must keep off, mm, before it draws together with others at its collector; null when there is
 * nothing. Room for tools, which a tube may touch, does not count.
 */
export function leastGap(gaps: readonly Gap[], id: string): number | null {
  const values = gaps
    .filter((g) => g.kind !== 'run-in' && g.kind !== 'approach' && g.limit > 0 && g.tubes.includes(id))
    .map((g) => g.value);
  return values.length > 0 ? Math.min(...values) : null;
}

/** summary.json. */
export const summaryFile = (summary: Summary): OutputFile =>
  textFile('summary.json', 'summary', `${JSON.stringify(summary, null, 2)}\n`);
