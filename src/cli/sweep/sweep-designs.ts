import { leastGap } from '../../export/summary/summary.js';
import type { ReadFile } from '../../params/scans.js';
import { designAt, planTextWith, type SweepAxis } from '../../params/text/sweep-axes.js';
import { routeHeader } from '../../pipeline.js';
import { bendsOf } from '../../routing/routed.js';
import { readAimedPlan } from '../plan-file.js';
import { brokenLimitWords } from '../report/broken-limit-words.js';

/** What came of one design of a sweep: one line of JSON. */
export type SweptDesign = {
  /** From 0, over the whole sweep. */
  readonly design: number;
  readonly values: Readonly<Record<string, number | string>>;
} & (
  | {
      readonly outcome: 'passed' | 'failed';
      readonly length_mm: number;
      readonly spread_mm: number;
      /** To anything the tubes keep off, before they draw together at their collectors. */
      readonly least_gap_mm: number | null;
      readonly bends: number;
      /** What the search weighs routes at: less is better. */
      readonly cost: number;
      readonly failed_checks: readonly string[];
    }
  | { readonly outcome: 'no route'; readonly binds: readonly string[] }
  | { readonly outcome: 'refused'; readonly problems: readonly string[] }
);

export interface SweepJob {
  readonly text: string;
  readonly file: string;
  readonly readFile: ReadFile;
  readonly axes: readonly SweepAxis[];
  /** How often the search may ask whether to go on: counted, so that every machine gives the same answer. */
  readonly effort: number;
}

/** Routes one design of a sweep. Throws RangeError for a field the plan does not give. */
export function sweptDesign(job: SweepJob, design: number): SweptDesign {
  const values = designAt(job.axes, design);
  const named = Object.fromEntries(job.axes.map((a, i) => [a.field, values[i]!]));
  const read = readAimedPlan(planTextWith(job.text, job.axes, values), job.file, job.readFile);
  if (!read.ok) {
    const problems = read.problems.map((p) => `${p.path}: ${p.message}`);
    return { design, values: named, outcome: 'refused', problems };
  }
  const routing = routeHeader(read.plan, { quick: true, goOn: countBudget(job.effort) });
  if (!routing.ok)
    return {
      design,
      values: named,
      outcome: 'no route',
      binds: routing.miss.broken.map((b) => brokenLimitWords(b, read.plan.units)),
    };
  const { primaries, secondaries, gaps, findings, passed, cost, plan } = routing.header;
  const tubes = [...primaries, ...secondaries];
  const least = tubes.map((t) => leastGap(gaps, t.id)).filter((g) => g !== null);
  return {
    design,
    values: named,
    outcome: passed ? 'passed' : 'failed',
    length_mm: plan.runners.length,
    spread_mm: findings.find((f) => f.id === 'equal-length.spread')!.value,
    least_gap_mm: least.length > 0 ? Math.min(...least) : null,
    bends: tubes.reduce((n, t) => n + bendsOf(t), 0),
    cost,
    failed_checks: findings.filter((f) => f.level === 'fail').map((f) => `${f.id}, ${f.place}`),
  };
}

function countBudget(most: number): (share?: number) => boolean {
  let asked = 0;
  return (share = 1) => ++asked < most * share;
}
