import { basename } from 'node:path';
import type { CommandModule } from 'yargs';
import { outputsOf } from '../outputs.js';
import { buildHeader, routeHeader } from '../pipeline.js';
import { CommandError, EXIT, type ExitCode } from './exit-code.js';
import { noRoute } from './no-route.js';
import { bookScript } from './page-script.js';
import { loadPlanAndText } from './plan-file.js';
import { progressOn } from './progress.js';
import { reportText } from './report.js';
import { timeBudget } from './time-budget.js';
import { checkFolder, writeFolder } from './write-folder.js';

interface BuildArgs {
  readonly plan: string;
  readonly out: string | undefined;
  readonly json: boolean;
  readonly alternatives: number;
}

/** `evenrun build PLAN --out DIR`: the whole job. */
export const buildCommand = (end: (code: ExitCode) => void): CommandModule<object, BuildArgs> => ({
  command: 'build <plan>',
  describe: 'Route, check and write everything for a plan',
  builder: (y) =>
    y
      .positional('plan', { type: 'string', demandOption: true, describe: 'Plan file (YAML or JSON)' })
      .option('out', { type: 'string', requiresArg: true, describe: 'Folder for the outputs (required)' })
      .option('alternatives', {
        type: 'number',
        requiresArg: true,
        default: 1,
        describe: 'How many different sets of routes to compare; the best is built',
      })
      .option('json', { type: 'boolean', default: false, describe: 'Print the summary as one JSON object' })
      .example('$0 build my-engine.yaml --out my-engine', ''),
  handler: async ({ plan: path, out, json, alternatives }) => {
    if (!out) throw new CommandError(EXIT.wrongInput, 'build needs a folder for its outputs: --out DIR');
    if (!(Number.isInteger(alternatives) && alternatives >= 1 && alternatives <= 20)) {
      throw new CommandError(EXIT.wrongInput, `--alternatives is a whole number from 1 to 20, not ${alternatives}`);
    }
    const { plan, text } = await loadPlanAndText(path);
    await checkFolder(out);
    const progress = progressOn(json);
    const routing = routeHeader(plan, { alternatives, goOn: timeBudget(plan.runners.budget) }, progress);
    if (!routing.ok) throw noRoute(routing.miss);
    const built = await buildHeader(routing.header, progress);
    const { bill } = built;
    const { files, summary } = outputsOf(built, routing.alternatives, progress, {
      script: await bookScript(),
      source: { name: basename(path), text },
    });
    await writeFolder(out, files);
    process.stdout.write(
      json ? `${JSON.stringify(summary, null, 2)}\n` : reportText(built, { folder: out, files, bill }),
    );
    end(built.passed ? EXIT.ok : EXIT.failedCheck);
  },
});
