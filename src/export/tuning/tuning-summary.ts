import type { Plan } from '../../params/plan.js';
import type { Comparison } from '../../parts/comparison/comparison.js';
import type { Reckoned, TuningTable } from '../../tuning/formulas/tuning-table.js';
import { LAW_CAUTION } from '../cautions.js';
import { COMPARISON_CAUTION } from './comparison-page.js';
import { RULES_CAUTION } from './rules-page.js';
import { verdictWords } from './verdict-words.js';

/** What `evenrun tune --json` prints: lengths in mm, speeds in rev/min. */
export function tuningSummary(plan: Plan, table: TuningTable, comparison: Comparison | null) {
  const size = (r: Reckoned) => ({
    rule: r.title,
    value_mm: r.value,
    bound: r.bound,
    source: r.source,
    doubt: r.doubt,
  });
  return {
    schema: 'evenrun-tuning-1',
    name: plan.name,
    rpm: table.inputs.rpm,
    target_mm: plan.runners.length,
    lengths: table.lengths.map((l) => ({
      rule: l.name,
      title: l.title,
      from_valve_mm: l.value,
      from_head_face_mm: l.fromFace,
      chosen: l.chosen,
      formula: l.formula,
      source: l.source,
      doubt: l.doubt,
    })),
    length_spread_mm: { ...table.lengthSpread },
    bores: table.bores.map(size),
    bore_spread_mm: { ...table.boreSpread },
    split: table.split.map(size),
    collector: table.collector.map(size),
    steps: table.steps.map((all) => all.map((s) => ({ at_mm: s.at, od_mm: s.od, thrown_back: s.reflection }))),
    verdict: comparison === null ? [] : verdictWords(comparison, plan.existing?.name ?? '', plan.units),
    sweeps: comparison === null ? [] : comparison.sweeps,
    cautions: [RULES_CAUTION, COMPARISON_CAUTION, LAW_CAUTION],
    plan_hash: plan.hash,
  };
}
