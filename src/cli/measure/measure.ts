import type { CommandModule } from 'yargs';
import { asBuiltBlank } from '../../export/summary/as-built-blank.js';
import { asBuiltSummary, overallVerdict } from '../../export/summary/as-built-summary.js';
import { LARGEST_PLAN_FILE } from '../../params/limits.js';
import { asBuiltReport } from '../../parts/as-built/as-built-report.js';
import { tubesToMeasure } from '../../parts/as-built/tubes-to-measure.js';
import { routeHeader } from '../../pipeline.js';
import { CommandError, EXIT, type ExitCode } from '../exit-code.js';
import { loadPlan } from '../plan-file.js';
import { readTextFile } from '../read-file.js';
import { noRoute } from '../report/no-route.js';
import { progressOn } from '../report/progress.js';
import { timeBudget } from '../time-budget.js';
import { checkedAsBuilt, soundAsBuilt } from './as-built-file.js';
import { measureText } from './measure-report.js';

interface MeasureArgs {
  readonly plan: string;
  readonly 'as-built': string | undefined;
  readonly blank: boolean;
  readonly json: boolean;
}

/** `evenrun measure PLAN --as-built FILE`: the true spread of built tubes and what to cut. */
export const measureCommand = (end: (code: ExitCode) => void): CommandModule<object, MeasureArgs> => ({
  command: 'measure <plan>',
  describe: 'Tell the true spread of built tubes from their measurements, and what to cut; write nothing',
  builder: (y) =>
    y
      .positional('plan', { type: 'string', demandOption: true, describe: 'Plan file (YAML or JSON)' })
      .option('as-built', { type: 'string', requiresArg: true, describe: 'File with what was measured (YAML or JSON)' })
      .option('blank', {
        type: 'boolean',
        default: false,
        describe: 'Print an as-built file for this plan, to be written over with what was measured',
      })
      .option('json', { type: 'boolean', default: false, describe: 'Print the outcome as one JSON object' })
      .example('$0 measure my-engine.yaml --blank > my-tubes.yaml', '')
      .example('$0 measure my-engine.yaml --as-built my-tubes.yaml', ''),
  handler: async ({ plan: path, 'as-built': file, blank, json }) => {
    if ((file === undefined) === !blank) {
      throw new CommandError(
        EXIT.wrongInput,
        'measure needs either the file with what was measured, --as-built FILE, or --blank to print one to fill in',
      );
    }
    if (blank && json) throw new CommandError(EXIT.wrongInput, '--blank prints a file to fill in: leave --json out');
    const plan = await loadPlan(path);
    const text = file === undefined ? null : await readTextFile(file, LARGEST_PLAN_FILE, 'an as-built file');
    if (text !== null) soundAsBuilt(text, file!);
    const routing = routeHeader(plan, { goOn: timeBudget(plan.runners.budget) }, progressOn(json || blank));
    if (!routing.ok) throw noRoute(routing.miss, plan.units);
    const { header } = routing;
    const tubes = tubesToMeasure(header.plan, [...header.primaries, ...header.secondaries], header.flanges);
    if (text === null) {
      process.stdout.write(asBuiltBlank(header.plan, tubes));
      return end(EXIT.ok);
    }
    const found = asBuiltReport(header.plan, tubes, checkedAsBuilt(text, file!, header.plan, tubes));
    const { name } = header.plan;
    process.stdout.write(
      json ? `${JSON.stringify(asBuiltSummary(name, found), null, 2)}\n` : measureText(header.plan, found),
    );
    end(overallVerdict(found) === 'inside' ? EXIT.ok : EXIT.failedCheck);
  },
});
