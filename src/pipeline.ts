import type { Finding } from './checks/finding.js';
import { check, passes } from './checks/rules.js';
import { bendTable } from './export/bend-table.js';
import { cutListTable } from './export/cut-list.js';
import { flangeDxf } from './export/flange-dxf.js';
import { flangeSvg } from './export/flange-svg.js';
import { lengthsTable } from './export/lengths.js';
import type { OutputFile } from './export/output-file.js';
import { overviewSvg } from './export/overview-svg.js';
import { stlFiles } from './export/stl.js';
import { summaryFile, summaryOf } from './export/summary.js';
import type { Summary } from './export/summary-schema.js';
import type { Plan } from './params/plan.js';
import { type Collector, collectorOf } from './parts/collector.js';
import { type CutPiece, cutListOf } from './parts/cut-list.js';
import { type FlangePart, flangesOf } from './parts/flange.js';
import { jigsOf } from './parts/jigs/jigs.js';
import type { SolidPart } from './parts/part.js';
import { type Gap, gapsOf } from './routing/clearance.js';
import type { Miss } from './routing/miss.js';
import { problemOf, type RouteProblem } from './routing/problem.js';
import type { RoutedPrimary } from './routing/routed.js';
import { solve } from './routing/solve.js';

/** Told what is being done, for people who wait. */
export type Progress = (step: string) => void;

const silent: Progress = () => {};

/** A header with its routes and the outcome of every check that needs no solid. */
export interface RoutedHeader {
  readonly plan: Plan;
  readonly problem: RouteProblem;
  readonly primaries: readonly RoutedPrimary[];
  readonly gaps: readonly Gap[];
  readonly flanges: readonly FlangePart[];
  readonly findings: readonly Finding[];
  readonly passed: boolean;
}

export type Routing =
  | { readonly ok: true; readonly header: RoutedHeader }
  | { readonly ok: false; readonly miss: Miss };

/** Routes the primaries of a plan and checks them; when no route holds, says what is in the way. */
export function routeHeader(plan: Plan, progress: Progress = silent): Routing {
  const problem = problemOf(plan);
  progress('routing the primaries');
  const solution = solve(problem);
  if (!solution.ok) return solution;
  const { primaries } = solution;
  progress('measuring gaps');
  const gaps = gapsOf(problem, primaries);
  progress('drawing the flange');
  const flanges = flangesOf(plan);
  const findings = check({ plan, problem, primaries, gaps, flanges, jigs: [] });
  return { ok: true, header: { plan, problem, primaries, gaps, flanges, findings, passed: passes(findings) } };
}

/** A header with everything that is made for it. */
export interface BuiltHeader extends RoutedHeader {
  readonly cutList: readonly CutPiece[];
  readonly collectors: readonly Collector[];
  readonly jigs: readonly SolidPart[];
}

/** Makes the parts of a routed header: cut list, collectors, jigs; and checks them too. */
export function buildHeader(header: RoutedHeader, progress: Progress = silent): BuiltHeader {
  const { plan, problem, primaries, gaps, flanges } = header;
  progress('building the collector');
  const collectors = plan.collectors.map((c) => collectorOf(c, plan.tube, plan.jig.bed));
  progress('building the jigs');
  const jigs = jigsOf(plan, primaries, flanges);
  const findings = check({ plan, problem, primaries, gaps, flanges, jigs });
  const cutList = cutListOf(plan, primaries);
  return { ...header, cutList, collectors, jigs, findings, passed: passes(findings) };
}

/** The files of a built header and the summary that lists them. */
export function outputsOf(built: BuiltHeader, progress: Progress = silent): { files: OutputFile[]; summary: Summary } {
  const { plan, primaries, gaps, flanges, collectors, findings } = built;
  progress('writing the files');
  const geometry = collectors.map((c) => c.geometry);
  const files = [
    ...flanges.flatMap((f) => [flangeDxf(f), flangeSvg(f)]),
    lengthsTable(plan, primaries),
    cutListTable(built.cutList),
    bendTable(primaries),
    overviewSvg({ plan, primaries, flanges, collectors: geometry, verdict: verdictOf(built) }),
    ...stlFiles([...collectors.map((c) => c.part), ...built.jigs]),
  ];
  const summary = summaryOf(
    { plan, primaries, gaps, collectors: geometry, gasVolumes: collectors.map((c) => c.gasVolume), findings },
    files,
  );
  return { files: [summaryFile(summary), ...files], summary };
}

/** The verdict in one line. */
export function verdictOf({ plan, primaries, findings, passed }: RoutedHeader): string {
  const spread = findings.find((f) => f.id === 'equal-length.spread')!;
  const count = `${primaries.length} ${primaries.length === 1 ? 'primary' : 'primaries'} of ${plan.runners.length.toFixed(1)} mm`;
  const failed = findings.filter((f) => f.level === 'fail').length;
  const end = passed ? 'all checks hold' : `${failed} ${failed === 1 ? 'check fails' : 'checks fail'}`;
  return `${count}, spread ${spread.value.toFixed(3)} mm of ${spread.limit.toFixed(3)} mm allowed: ${end}.`;
}

/** The summary of a header that was only checked: no collectors, no files. */
export const checkedSummary = ({ plan, primaries, gaps, findings }: RoutedHeader): Summary =>
  summaryOf({ plan, primaries, gaps, collectors: [], gasVolumes: [], findings }, []);
