import type { CommandModule } from 'yargs';
import { checkedSummary } from '../checked-summary.js';
import { routeHeader } from '../pipeline.js';
import { EXIT, type ExitCode } from './exit-code.js';
import { loadPlan } from './plan-file.js';
import { noRoute } from './report/no-route.js';
import { progressOn } from './report/progress.js';
import { reportText } from './report/report.js';
import { timeBudget } from './time-budget.js';

interface CheckArgs {
  readonly plan: string;
  readonly json: boolean;
  readonly quick: boolean;
}

/** `evenrun check PLAN`: routing and checks only. */
export const checkCommand = (end: (code: ExitCode) => void): CommandModule<object, CheckArgs> => ({
  command: 'check <plan>',
  describe: 'Route and check a plan; write nothing',
  builder: (y) =>
    y
      .positional('plan', { type: 'string', demandOption: true, describe: 'Plan file (YAML or JSON)' })
      .option('quick', {
        type: 'boolean',
        default: false,
        describe: 'Stop at the first set of routes that holds, unrefined',
      })
      .option('json', { type: 'boolean', default: false, describe: 'Print the summary as one JSON object' })
      .example('$0 check my-engine.yaml', ''),
  handler: async ({ plan: path, json, quick }) => {
    const plan = await loadPlan(path);
    const routing = routeHeader(plan, { quick, goOn: timeBudget(plan.runners.budget) }, progressOn(json));
    if (!routing.ok) throw noRoute(routing.miss, plan.units);
    const { header } = routing;
    process.stdout.write(json ? `${JSON.stringify(checkedSummary(header), null, 2)}\n` : reportText(header, null));
    end(header.passed ? EXIT.ok : EXIT.failedCheck);
  },
});
