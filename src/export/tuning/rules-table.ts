import type { Plan } from '../../params/plan.js';
import type { Reckoned, TuningTable } from '../../tuning/formulas/tuning-table.js';
import { csvBytes } from '../csv/csv.js';
import type { OutputFile } from '../output-file.js';
import { inputWords } from './rules-page.js';

/** Every rule's answer in mm with what stands behind it. */
export function rulesTable(plan: Plan, table: TuningTable): OutputFile {
  const row = (of: string, r: Reckoned, fromFace: number | null) => [
    of,
    r.title,
    r.bound,
    r.value,
    fromFace,
    r.formula,
    r.inputs.map((i) => inputWords(plan, i)).join('; '),
    r.source,
    r.doubt,
  ];
  const rows = [
    ...table.lengths.map((l) => row('primary length', l, l.fromFace)),
    ...table.bores.map((r) => row('primary bore', r, null)),
    ...table.split.map((r) => row('4-2-1', r, null)),
    ...table.collector.map((r) => row('collector and tailpipe', r, null)),
  ];
  const head = ['of', 'rule', 'bound', 'value_mm', 'from_head_face_mm', 'formula', 'inputs', 'source', 'doubt'];
  return { path: 'tuning/rules.csv', kind: 'tuning', bytes: csvBytes(head, rows) };
}
