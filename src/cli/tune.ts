import { availableParallelism } from 'node:os';
import type { CommandModule } from 'yargs';
import { type OutputFile, textFile } from '../export/output-file.js';
import { pageText } from '../export/tuning/page-text.js';
import { tuningSummary } from '../export/tuning/tuning-summary.js';
import type { Plan } from '../params/plan.js';
import type { Exploration } from '../parts/comparison/exploration.js';
import { type RoutedHeader, routeHeader } from '../pipeline.js';
import { explorationOf, rulesOf, type Tuning, tuningFiles, tuningOf, tuningPages } from '../tune.js';
import { tuningInputs } from '../tuning/formulas/tuning-inputs.js';
import { withTargets } from '../tuning/targets.js';
import { CommandError, EXIT, type ExitCode } from './exit-code.js';
import { GAS_POINTS, gasOf, physical } from './gas.js';
import { loadPlan } from './plan-file.js';
import { noRoute } from './report/no-route.js';
import { progressOn } from './report/progress.js';
import { timeBudget } from './time-budget.js';
import { checkFolder, TUNING_LEDGER, writeFolder } from './write-folder.js';

interface TuneArgs {
  readonly plan: string;
  readonly out: string | undefined;
  readonly rpm: number | undefined;
  readonly simulate: boolean;
  readonly points: number;
  readonly search: boolean;
  readonly json: boolean;
}

/** `evenrun tune PLAN`: lengths and bores by the published rules; with routes, the gas paths and what is calculated of them. */
export const tuneCommand = (end: (code: ExitCode) => void): CommandModule<object, TuneArgs> => ({
  command: 'tune <plan>',
  describe: 'First answers for length and bore by published rules, and the header against the manifold of today',
  builder: (y) =>
    y
      .positional('plan', { type: 'string', demandOption: true, describe: 'Plan file (YAML or JSON)' })
      .option('rpm', {
        type: 'number',
        requiresArg: true,
        describe: "Engine speed to tune for instead of the plan's, rev/min",
      })
      .option('simulate', {
        type: 'boolean',
        default: false,
        describe: 'Route, then calculate the gas over the engine speeds',
      })
      .option('points', {
        type: 'number',
        requiresArg: true,
        default: GAS_POINTS,
        describe: 'Engine speeds of --simulate',
      })
      .option('search', {
        type: 'boolean',
        default: false,
        describe: 'With --simulate: search the best length and try small changes too; takes a minute',
      })
      .option('out', {
        type: 'string',
        requiresArg: true,
        describe: 'Folder for pages, tables and plots: routes the header too',
      })
      .option('json', { type: 'boolean', default: false, describe: 'Print the outcome as one JSON object' })
      .example('$0 tune my-engine.yaml', '')
      .example('$0 tune my-engine.yaml --simulate --out my-tuning', ''),
  handler: async (args) => {
    checkArgs(args);
    const { out, simulate, search, json } = args;
    const plan = atSpeed(await loadPlan(args.plan), args.rpm);
    if (out !== undefined) await checkFolder(out, TUNING_LEDGER);
    const rules = rulesOf(plan) ?? refuse(plan);
    const routed = simulate || out !== undefined || plan.existing !== null ? routedHeader(plan, json) : null;
    const sweeps = routed !== null && simulate ? await gasOf(routed, args.points, progressOn(json)) : [];
    const tuning: Tuning =
      routed === null
        ? { plan, rules, comparison: null, sweeps }
        : tuningOf(routed, sweeps, search ? await explored(routed, args) : null);
    const files = out === undefined ? [] : ledgered(tuning);
    if (out !== undefined) await writeFolder(out, files, TUNING_LEDGER);
    process.stdout.write(json ? jsonText(tuning, files) : wordsOf(tuning, files, out));
    end(routed === null || routed.passed ? EXIT.ok : EXIT.failedCheck);
  },
});

function checkArgs({ rpm, points, simulate, search, out }: TuneArgs): void {
  if (out === '') throw new CommandError(EXIT.wrongInput, '--out needs the name of a folder');
  if (rpm !== undefined && !(rpm >= 300 && rpm <= 30_000)) {
    throw new CommandError(EXIT.wrongInput, `--rpm is an engine speed from 300 to 30000 rev/min, not ${rpm}`);
  }
  if (search && !simulate) throw new CommandError(EXIT.wrongInput, '--search calculates the gas: add --simulate');
  if (simulate && !(Number.isInteger(points) && points >= 2 && points <= 100)) {
    throw new CommandError(EXIT.wrongInput, `--points is a whole number from 2 to 100, not ${points}`);
  }
}

/** The plan tuned for another engine speed: a tuned length follows. */
function atSpeed(plan: Plan, rpm: number | undefined): Plan {
  if (rpm === undefined) return plan;
  const targets = withTargets({ ...plan, tuning: { ...plan.tuning, rpm } });
  if (targets.ok) return targets.plan;
  const faults = targets.faults.map((f) => `${f.path.join('.')}: ${f.message}`);
  throw new CommandError(EXIT.wrongInput, `at --rpm ${rpm} the plan has no sound length\n${faults.join('\n')}`);
}

/** Says which fields the rules lack. */
function refuse(plan: Plan): never {
  const found = tuningInputs(plan);
  const missing = found.ok ? [] : found.missing.map(({ field, why }) => `${field}: missing; ${why}`);
  throw new CommandError(EXIT.wrongInput, `the plan lacks what tuning reckons with\n${missing.join('\n')}`);
}

function routedHeader(plan: Plan, json: boolean): RoutedHeader {
  const routing = routeHeader(plan, { goOn: timeBudget(plan.runners.budget) }, progressOn(json));
  if (!routing.ok) throw noRoute(routing.miss, plan.units);
  return routing.header;
}

const explored = (header: RoutedHeader, { json }: TuneArgs): Promise<Exploration> =>
  physical(explorationOf(header, { workers: availableParallelism(), progress: progressOn(json) }));

/** The files with the list of them, by which a later run knows its own. */
function ledgered(tuning: Tuning): OutputFile[] {
  const files = tuningFiles(tuning);
  return [textFile(TUNING_LEDGER.file, 'tuning', jsonText(tuning, files)), ...files];
}

function jsonText({ plan, rules, comparison }: Tuning, files: readonly OutputFile[]): string {
  const listed = files.map((f) => ({ path: f.path, kind: f.kind }));
  return `${JSON.stringify({ ...tuningSummary(plan, rules!, comparison), files: listed }, null, 2)}\n`;
}

function wordsOf(tuning: Tuning, files: readonly OutputFile[], out: string | undefined): string {
  const pages = tuningPages(tuning).map(pageText).join('\n');
  const wrote =
    out === undefined
      ? 'Nothing was written.'
      : `Wrote ${files.length} files to ${out}: open tuning/tuning.html or tuning/tuning.pdf.`;
  return `${tuning.plan.name}\n\n${pages}\n${wrote}\n`;
}
