import * as z from 'zod';
import { formatProblems, type PlanFault, type PlanProblem } from './faults/plan-problem.js';
import { faultsOf, wordIssue } from './faults/schema-faults.js';
import { MOST_PROBLEMS } from './limits.js';
import type { Plan } from './plan.js';
import type { Draft } from './resolve/draft.js';
import { planOf } from './resolve/plan.js';
import type { PlanSections } from './resolve/sections.js';
import { RULES } from './rules/table.js';
import { type ReadFile, readScans } from './scans.js';
import { type PlanFile, planFileSchema } from './schema/plan-file.js';
import { withOwnTables } from './stock/own-tables.js';
import { planHash, rememberingReader } from './text/plan-hash.js';
import { type PlanText, readPlanText } from './text/plan-text.js';
import { atTrace, readTraces } from './trace/read-traces.js';

/** A plan, or everything that is wrong with it and the same as text, one line a problem. */
export type ReadPlan =
  | {
      readonly ok: true;
      /** The plan. */
      readonly plan: Plan;
      /** The place in the file of what a later stage finds wrong with the plan. */
      readonly problemAt: (fault: PlanFault) => PlanProblem;
    }
  | {
      readonly ok: false;
      /** What is wrong, by line. */
      readonly problems: readonly PlanProblem[];
      /** The same as text, one line a problem. */
      readonly text: string;
    };

/**
 * Reads a plan from YAML or JSON text. `fileName` only names the file in messages. `readFile` gives the bytes of a scan, drawing or list of points by its path
 * as the plan has it; without it a plan that names one is refused. Never throws: all that is wrong comes back at once, each problem
 * with line, column and path.
 */
export function readPlan(text: string, fileName: string, readFile?: ReadFile): ReadPlan {
  const refuse = (problems: readonly PlanProblem[]): ReadPlan => {
    const sorted = problems.slice(0, MOST_PROBLEMS).sort((a, b) => a.line - b.line || a.column - b.column);
    return { ok: false, problems: sorted, text: formatProblems(sorted, fileName) };
  };
  const read = readPlanText(text);
  if (!('value' in read)) return refuse(read);
  if (!isSection(read.value)) return refuse([read.problemAt(noPlan(read))]);
  const { whole, sound, given, faults } = checkedSections(withOwnTables(read.value));
  const memory = rememberingReader(readFile);
  const traces = readTraces(sound, memory.readFile);
  const draft: Draft = { sections: traces.sections, given };
  const scans = readScans(draft, memory.readFile);
  const broken = RULES.flatMap((rule) => rule(draft)).map((fault) => atTrace(fault, sound));
  const all = [...faults, ...traces.faults, ...broken, ...scans.faults];
  if (all.length > 0 || !whole) return refuse(all.slice(0, MOST_PROBLEMS).map(read.problemAt));
  const hash = planHash(text, memory.files);
  return {
    ok: true,
    plan: planOf(traces.sections as PlanSections, scans.meshes, traces.notes, hash),
    problemAt: read.problemAt,
  };
}

const noPlan = ({ value }: PlanText): PlanFault => ({
  path: [],
  message: `expected a plan with sections such as engine, head and tube${value === null ? '; the file is empty' : ''}`,
});

const isSection = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

interface CheckedSections {
  /** False when the schema finds fault. */
  readonly whole: boolean;
  /** The sections that are sound alone. */
  readonly sound: Partial<PlanFile>;
  readonly given: ReadonlySet<string>;
  readonly faults: readonly PlanFault[];
}

const SCHEMAS = { mm: planFileSchema('mm'), in: planFileSchema('in') } as const;

/** The schema over the whole file; where it finds fault, the sections that are sound alone still reach the rules. */
function checkedSections(value: Readonly<Record<string, unknown>>): CheckedSections {
  const schema = SCHEMAS[value.units === 'in' ? 'in' : 'mm'];
  const given = new Set(Object.keys(value));
  const whole = schema.safeParse(value, { error: wordIssue });
  if (whole.success) return { whole: true, sound: whole.data, given, faults: [] };
  const sound = Object.entries(schema.shape).flatMap(([name, section]) => {
    const parsed = z.safeParse(section, value[name]);
    return parsed.success ? [[name, parsed.data]] : [];
  });
  const sections = Object.fromEntries(sound) as Partial<PlanFile>;
  return { whole: false, sound: sections, given, faults: faultsOf(whole.error.issues, value) };
}
