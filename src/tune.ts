import type { BookSection } from './export/book/book-section.js';
import { type OutputFile, textFile } from './export/output-file.js';
import { auditTable, stationsTable } from './export/tuning/audit-table.js';
import { comparisonPage, systemWords } from './export/tuning/comparison-page.js';
import { searchPlot } from './export/tuning/exploration-blocks.js';
import { linePlot } from './export/tuning/line-plot.js';
import type { Page } from './export/tuning/page.js';
import { pageSection, pagesHtml } from './export/tuning/page-html.js';
import { pagesPdf } from './export/tuning/page-pdf.js';
import { pressurePlot } from './export/tuning/pressure-plot.js';
import { rulesPage } from './export/tuning/rules-page.js';
import { rulesPlot } from './export/tuning/rules-plot.js';
import { rulesTable } from './export/tuning/rules-table.js';
import { sweepPlots } from './export/tuning/sweep-blocks.js';
import { pressureTable, sweepTable } from './export/tuning/sweep-table.js';
import type { Plan } from './params/plan.js';
import { type Comparison, comparisonOf, gasSystems } from './parts/comparison/comparison.js';
import { type Exploration, explore } from './parts/comparison/exploration.js';
import { exhaustSystemOf } from './parts/gas-path/exhaust-system-of.js';
import { type HeaderRoutes, headerPath } from './parts/gas-path/header-path.js';
import { gasEngineOf } from './tuning/engine/engine-of-plan.js';
import type { SweepResult } from './tuning/engine/results.js';
import { rpmRange, sweep } from './tuning/engine/sweep.js';
import { tuningInputs } from './tuning/formulas/tuning-inputs.js';
import { type TuningTable, tuningTable } from './tuning/formulas/tuning-table.js';

/** What is known of a header's tuning: rules, paths, and the gas where it was calculated. */
export interface Tuning {
  /** The plan with its placed collectors. */
  readonly plan: Plan;
  /** Null where the plan lacks what the rules reckon with. */
  readonly rules: TuningTable | null;
  /** Null before the tubes are routed. */
  readonly comparison: Comparison | null;
  /** The gas of each exhaust over the engine's speeds; empty where it was not calculated. */
  readonly sweeps: readonly SweepResult[];
}

/** The published rules for a plan whose target is fixed; null where it lacks their inputs. */
export function rulesOf(plan: Plan): TuningTable | null {
  const found = tuningInputs(plan);
  return found.ok ? tuningTable(plan, found.inputs) : null;
}

/** What is known of a header's tuning once it is routed. */
export const tuningOf = (
  header: HeaderRoutes,
  sweeps: readonly SweepResult[] = [],
  exploration: Exploration | null = null,
): Tuning => ({
  plan: header.plan,
  rules: rulesOf(header.plan),
  comparison: comparisonOf(header, sweeps, exploration),
  sweeps,
});

/** Part of the engine's highest speed at which a sweep begins. */
const LOWEST = 0.4;

/** How a sweep over all exhausts of a plan is run. */
export interface SweepWish {
  /** Engine speeds. */
  readonly points: number;
  /** Threads to share the work. */
  readonly workers: number;
  /** Told what is being done. */
  readonly progress: (step: string) => void;
}

/** Calculates the gas of every exhaust of a routed header over the engine's speeds. Throws RangeError for what is unphysical or missing, with field or range. */
export async function sweepsOf(header: HeaderRoutes, wish: SweepWish): Promise<SweepResult[]> {
  const { engine } = header.plan;
  const limit = engine.rpm?.limit ?? header.plan.tuning.rpm;
  if (limit === null || limit === undefined)
    throw new RangeError('engine.rpm: missing; a sweep needs the speeds of the engine');
  const speeds = rpmRange(LOWEST * limit, limit, wish.points);
  const gas = gasEngineOf(engine);
  const results: SweepResult[] = [];
  for (const system of gasSystems(header)) {
    const progress = (done: number, of: number): void =>
      wish.progress(`calculating the gas, ${system.name}: ${done} of ${of}`);
    results.push(await sweep(exhaustSystemOf(system), gas, speeds, { workers: wish.workers, progress }));
  }
  return results;
}

/**
 * Searches the best common length, within the plan's band where it has one, and tries small changes. Throws RangeError like `sweepsOf`.
 */
export async function explorationOf(
  header: HeaderRoutes,
  { workers, progress }: Omit<SweepWish, 'points'>,
): Promise<Exploration> {
  const { engine, tuning, runners } = header.plan;
  const power = tuning.rpm ?? engine.rpm?.power;
  if (power === undefined) throw new RangeError('engine.rpm: missing; a search needs the speed of the engine');
  const system = headerPath(header, 'equal lengths');
  // what stands before and behind the plan's own length, from the valve to the joint
  const beside = Math.max(...system.ways.flatMap((w) => ('cylinder' in w.from ? [w.length] : []))) - runners.length;
  const metres = (mm: number): number => (mm + beside) / 1000;
  const band = runners.band && { from: metres(runners.band.from), to: metres(runners.band.to) };
  let tries = 0;
  const told = (): void => progress(`searching the best length and trying changes: ${++tries}`);
  return explore(exhaustSystemOf(system), gasEngineOf(engine), power, band, { workers, progress: told });
}

/** The pages of a tuning, first the rules, then the comparison. */
export const tuningPages = ({ plan, rules, comparison }: Tuning): Page[] => [
  ...(rules === null ? [] : [rulesPage(plan, rules)]),
  ...(comparison === null ? [] : [comparisonPage(plan, comparison)]),
];

/** The same as sections of the build book. */
export const tuningSections = (tuning: Tuning): BookSection[] => tuningPages(tuning).map(pageSection);

/** Everything a tuning gives as files under `tuning/`. */
export function tuningFiles(tuning: Tuning): OutputFile[] {
  const { plan, rules, comparison } = tuning;
  const pages = tuningPages(tuning);
  const title = `${plan.name}: tuning`;
  const audits =
    comparison === null ? [] : [comparison.header, ...(comparison.existing === null ? [] : [comparison.existing])];
  return [
    text('tuning/tuning.html', pagesHtml(title, pages)),
    { path: 'tuning/tuning.pdf', kind: 'tuning', bytes: pagesPdf(plan, 'tuning', pages) },
    ...(rules === null
      ? []
      : [rulesTable(plan, rules), text('tuning/lengths.svg', linePlot(rulesPlot(plan, rules.inputs), true))]),
    ...(audits.length === 0 ? [] : [auditTable(audits), stationsTable(audits)]),
    ...sweepFiles(tuning),
  ];
}

function sweepFiles({ plan, comparison, sweeps }: Tuning): OutputFile[] {
  if (comparison === null || sweeps.length === 0) return [];
  const names = (system: string): string => systemWords(system, plan.existing?.name ?? system);
  const pressure = pressurePlot(sweeps, plan.tuning.rpm ?? plan.engine.rpm?.power ?? 0, names);
  return [
    sweepTable(sweeps),
    pressureTable(sweeps),
    ...sweepPlots(comparison.sweeps, names).map(({ file, plot }) => text(file, linePlot(plot, true))),
    text('tuning/pressure.svg', linePlot(pressure, true)),
    ...(comparison.exploration === null
      ? []
      : [text('tuning/best-length.svg', linePlot(searchPlot(comparison.exploration, plan.units), true))]),
  ];
}

const text = (path: string, content: string): OutputFile => textFile(path, 'tuning', content);
