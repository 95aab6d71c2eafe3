import { basename } from 'node:path';
import type { CommandModule } from 'yargs';
import { outputsOf } from '../outputs.js';
import { MOST_ALTERNATIVES, MOST_JOBS, MOST_PLANS } from '../params/limits.js';
import { buildHeader, routeHeader } from '../pipeline.js';
import { batchedLine, batchJson, batchTable, buildBatch, gravest } from './batch.js';
import { CommandError, EXIT, type ExitCode } from './exit-code.js';
import { GAS_POINTS, gasOf } from './gas.js';
import { bookScript } from './page-script.js';
import { loadPlanAndText } from './plan-file.js';
import { noRoute } from './report/no-route.js';
import { progressOn } from './report/progress.js';
import { reportText } from './report/report.js';
import { timeBudget } from './time-budget.js';
import { checkFolder, writeFolder } from './write-folder.js';

interface BuildArgs {
  readonly plan: readonly string[];
  readonly out: string | undefined;
  readonly json: boolean;
  readonly alternatives: number;
  readonly jobs: number | undefined;
  readonly resume: boolean;
  readonly simulate: boolean;
}

/** `evenrun build PLAN --out DIR`: the whole job. */
export const buildCommand = (end: (code: ExitCode) => void): CommandModule<object, BuildArgs> => ({
  command: 'build <plan..>',
  describe: 'Route, check and write everything for a plan',
  builder: (y) =>
    y
      .positional('plan', {
        type: 'string',
        array: true,
        demandOption: true,
        describe: 'Plan file (YAML or JSON); of several each is built into a folder of its name below --out',
      })
      .option('out', { type: 'string', requiresArg: true, describe: 'Folder for the outputs (required)' })
      .option('alternatives', {
        type: 'number',
        requiresArg: true,
        default: 1,
        describe: 'How many different sets of routes to compare; the best is built',
      })
      .option('simulate', {
        type: 'boolean',
        default: false,
        describe: 'Calculate the gas over the engine speeds too, for the pages on tuning',
      })
      .option('json', { type: 'boolean', default: false, describe: 'Print the summary as one JSON object' })
      .option('jobs', { type: 'number', requiresArg: true, describe: 'Of several plans, how many to build at a time' })
      .option('resume', {
        type: 'boolean',
        default: false,
        describe: 'Of several plans, keep those whose folder holds the build of the same plan',
      })
      .example('$0 build my-engine.yaml --out my-engine', '')
      .example('$0 build plans/*.yaml --out built --jobs 4', ''),
  handler: async (args) => {
    const { plan: paths, out, json, alternatives, jobs, resume, simulate } = args;
    if (!out) throw new CommandError(EXIT.wrongInput, 'build needs a folder for its outputs: --out DIR');
    if (!(Number.isInteger(alternatives) && alternatives >= 1 && alternatives <= MOST_ALTERNATIVES)) {
      throw new CommandError(
        EXIT.wrongInput,
        `--alternatives is a whole number from 1 to ${MOST_ALTERNATIVES}, not ${alternatives}`,
      );
    }
    if (paths.length > 1 || jobs !== undefined || resume) return batch(args, out, end);
    const { plan, text } = await loadPlanAndText(paths[0]!);
    await checkFolder(out);
    const progress = progressOn(json);
    const routing = routeHeader(plan, { alternatives, goOn: timeBudget(plan.runners.budget) }, progress);
    if (!routing.ok) throw noRoute(routing.miss, plan.units);
    const sweeps = simulate ? await gasOf(routing.header, GAS_POINTS, progress) : [];
    const built = await buildHeader(routing.header, progress);
    const { bill } = built;
    const page = { script: await bookScript(), source: { name: basename(paths[0]!), text } };
    const { files, summary } = outputsOf(built, routing.alternatives, progress, page, sweeps);
    await writeFolder(out, files);
    process.stdout.write(
      json ? `${JSON.stringify(summary, null, 2)}\n` : reportText(built, { folder: out, files, bill }),
    );
    end(built.passed ? EXIT.ok : EXIT.failedCheck);
  },
});

/** Several plans, each into a folder of its own below `out`. */
async function batch(
  { plan: plans, json, alternatives, jobs = 1, resume, simulate }: BuildArgs,
  out: string,
  end: (code: ExitCode) => void,
): Promise<void> {
  if (!(Number.isInteger(jobs) && jobs >= 1 && jobs <= MOST_JOBS)) {
    throw new CommandError(EXIT.wrongInput, `--jobs is a whole number from 1 to ${MOST_JOBS}, not ${jobs}`);
  }
  if (plans.length > MOST_PLANS) {
    throw new CommandError(EXIT.wrongInput, `${plans.length} plans are more than the ${MOST_PLANS} of one batch`);
  }
  if (alternatives !== 1)
    throw new CommandError(EXIT.wrongInput, '--alternatives goes with one plan, not with several');
  const all = await buildBatch(
    { plans, out, jobs, resume, simulate },
    (b) => void process.stderr.write(`${batchedLine(b)}\n`),
  );
  process.stdout.write(json ? `${JSON.stringify(batchJson(all), null, 2)}\n` : batchTable(all));
  end(gravest(all));
}
