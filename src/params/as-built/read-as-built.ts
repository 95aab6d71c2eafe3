import { formatProblems, type PlanFault, type PlanProblem } from '../faults/plan-problem.js';
import { faultsOf, wordIssue } from '../faults/schema-faults.js';
import { MOST_PROBLEMS } from '../limits.js';
import { readPlanText } from '../text/plan-text.js';
import type { AsBuilt, Measured, MeasuredTube } from './as-built.js';
import { type AsBuiltFile, asBuiltSchema } from './schema.js';

/** What is wrong with an as-built file, and the same as text, one line a problem. */
export interface AsBuiltRefused {
  readonly ok: false;
  readonly problems: readonly PlanProblem[];
  readonly text: string;
}

/** Measurements, and the way to refuse them with line and field where they do not go with the plan. */
export type ReadAsBuilt =
  | { readonly ok: true; readonly asBuilt: AsBuilt; readonly refuse: (faults: readonly PlanFault[]) => AsBuiltRefused }
  | AsBuiltRefused;

/** What faults of its text call it. */
const AS_BUILT = { name: 'an as-built file', holds: 'an as-built file holds the tubes of one header' } as const;

const SCHEMAS = { mm: asBuiltSchema('mm'), in: asBuiltSchema('in') } as const;

/**
 * Reads an as-built file from YAML or JSON text. `fileName` only names the file in messages. Never throws: all that is wrong comes
 * back at once, each problem with line, column and path.
 */
export function readAsBuilt(text: string, fileName: string): ReadAsBuilt {
  const said = (problems: readonly PlanProblem[]): AsBuiltRefused => {
    const sorted = problems.slice(0, MOST_PROBLEMS).sort((a, b) => a.line - b.line || a.column - b.column);
    return { ok: false, problems: sorted, text: formatProblems(sorted, fileName) };
  };
  const read = readPlanText(text, AS_BUILT);
  if (!('value' in read)) return said(read);
  const refuse = (faults: readonly PlanFault[]): AsBuiltRefused => said(faults.map(read.problemAt));
  const { value } = read;
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    return refuse([{ path: [], message: 'expected a file with evenrun_measured, units and tubes' }]);
  }
  const unit = (value as { units?: unknown }).units === 'in' ? 'in' : 'mm';
  const parsed = SCHEMAS[unit].safeParse(value, { error: wordIssue });
  if (!parsed.success) return refuse(faultsOf(parsed.error.issues, value));
  const twice = givenTwice(parsed.data);
  return twice.length > 0 ? refuse(twice) : { ok: true, asBuilt: asBuiltOf(parsed.data), refuse };
}

function givenTwice({ tubes }: AsBuiltFile): PlanFault[] {
  const ids = tubes.map((t) => t.cylinder ?? t.from);
  return ids.flatMap((id, i): PlanFault[] =>
    ids.indexOf(id) === i ? [] : [{ path: ['tubes', i], message: `${String(id)} is measured twice; keep one` }],
  );
}

const asBuiltOf = (file: AsBuiltFile): AsBuilt => ({
  units: file.units,
  plan: file.plan ?? null,
  tubes: file.tubes.map(tubeOf),
});

function tubeOf(t: AsBuiltFile['tubes'][number]): MeasuredTube {
  return {
    cylinder: t.cylinder ?? null,
    from: t.from ?? null,
    measured: measuredOf(t),
    begins: t.water?.from ?? t.begins ?? 'port',
    uncertainty: t.uncertainty ?? null,
  };
}

/** The one kind of measurement a tube has; the schema sees to it that there is just one. */
function measuredOf(t: AsBuiltFile['tubes'][number]): Measured {
  if (t.length !== undefined) return { kind: 'length', length: t.length };
  if (t.string !== undefined) return { kind: 'string', ...t.string };
  if (t.water !== undefined) return { kind: 'water', volume: 1000 * t.water.volume };
  if (t.points !== undefined) return { kind: 'points', by: t.by!, points: t.points, clr: t.clr ?? null };
  return {
    kind: 'pieces',
    pieces: t.pieces!.map((p) => ({
      piece: p.piece,
      length: p.length ?? null,
      bend: p.bend ?? null,
      before: p.before ?? null,
      after: p.after ?? null,
    })),
  };
}
