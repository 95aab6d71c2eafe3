import { basename } from 'node:path';
import type { CommandModule } from 'yargs';
import { type Compared, type Comparison, compareHeaders } from '../compare.js';
import { MOST_COMPARED } from '../params/limits.js';
import type { LengthUnit } from '../params/units.js';
import { routeHeader } from '../pipeline.js';
import type { Miss } from '../routing/miss.js';
import { CommandError, EXIT, type ExitCode } from './exit-code.js';
import { bookScript } from './page-script.js';
import { loadPlanAndText } from './plan-file.js';
import { noRoute } from './report/no-route.js';
import { progressOn } from './report/progress.js';
import { textTable } from './report/text-table.js';
import { timeBudget } from './time-budget.js';
import { checkPage, writePage } from './write-page.js';

interface CompareArgs {
  readonly plans: readonly string[] | undefined;
  readonly out: string | undefined;
  readonly alternatives: number | undefined;
  readonly json: boolean;
}

/** `evenrun compare PLAN PLAN --out FILE`: headers side by side in one page. */
export const compareCommand = (end: (code: ExitCode) => void): CommandModule<object, CompareArgs> => ({
  command: 'compare <plans..>',
  describe: 'Lay two plans, or alternatives of one, side by side in one page',
  builder: (y) =>
    y
      .positional('plans', { type: 'string', array: true, demandOption: true, describe: 'Plan files (YAML or JSON)' })
      .option('out', { type: 'string', requiresArg: true, describe: 'The page to write, FILE.html (required)' })
      .option('alternatives', {
        type: 'number',
        requiresArg: true,
        describe: 'Of one plan: how many different sets of routes (2 where not given)',
      })
      .option('json', { type: 'boolean', default: false, describe: 'Print the comparison as one JSON object' })
      .example('$0 compare low.yaml high.yaml --out low-or-high.html', ''),
  handler: async ({ plans, out, alternatives, json }) => {
    const paths = plans ?? [];
    const count = wanted(paths, alternatives);
    if (!out?.endsWith('.html')) {
      throw new CommandError(EXIT.wrongInput, 'compare needs a page to write: --out FILE.html');
    }
    await checkPage(out);
    const progress = progressOn(json);
    const read = [];
    for (const path of paths) read.push({ path, ...(await loadPlanAndText(path)) });
    const compared: Compared[] = [];
    for (const { path, plan, text } of read) {
      const options = { alternatives: count, goOn: timeBudget(plan.runners.budget) };
      const routing = routeHeader(plan, options, progress);
      if (!routing.ok) throw noRouteFor(path, routing.miss, plan.units);
      const source = { name: basename(path), text };
      const headers = [routing.header, ...(paths.length === 1 ? routing.alternatives : [])];
      for (const header of headers) compared.push({ label: labelOf(compared.length, paths.length), header, source });
    }
    if (compared.length < 2) throw new CommandError(EXIT.noRoute, ONE_SET);
    progress('laying them side by side');
    const comparison = await compareHeaders(compared, await bookScript());
    await writePage(out, comparison.text);
    process.stdout.write(json ? jsonOf(comparison, out) : `${linesOf(comparison)}\nWrote ${out}.\n`);
    end(compared.every(({ header }) => header.passed) ? EXIT.ok : EXIT.failedCheck);
  },
});

const ONE_SET =
  'only one set of routes was found for this plan, so there is nothing to lay beside it; nothing was written';

/** The end where a plan has no route, with the plan's name. */
function noRouteFor(path: string, miss: Miss, units: LengthUnit): CommandError {
  const { code, message, details } = noRoute(miss, units);
  return new CommandError(code, `${path}: ${message}`, details);
}

/** How many sets of routes of each plan. */
function wanted(paths: readonly string[], alternatives: number | undefined): number {
  if (paths.length > MOST_COMPARED) {
    throw new CommandError(EXIT.wrongInput, `compare takes at most ${MOST_COMPARED} plans, not ${paths.length}`);
  }
  if (paths.length > 1) {
    if (alternatives === undefined) return 1;
    throw new CommandError(EXIT.wrongInput, '--alternatives compares routes of one plan; name one plan with it');
  }
  const count = alternatives ?? 2;
  if (Number.isInteger(count) && count >= 2 && count <= MOST_COMPARED) return count;
  throw new CommandError(
    EXIT.wrongInput,
    `--alternatives is a whole number from 2 to ${MOST_COMPARED} here, not ${count}`,
  );
}

const labelOf = (index: number, plans: number): string =>
  plans === 1 ? `set ${index + 1}` : String.fromCharCode(65 + index);

const jsonOf = ({ labels, rows }: Comparison, page: string): string =>
  `${JSON.stringify({ schema: 'evenrun-comparison-1', labels, rows, page }, null, 2)}\n`;

function linesOf({ labels, rows }: Comparison): string {
  const cell = (value: number | null, digits: number): string => (value === null ? '-' : value.toFixed(digits));
  const table = rows.map((r) => [r.name, ...r.values.map((v) => cell(v, r.digits)), r.unit]);
  return textTable([['', ...labels, ''], ...table]).join('\n');
}
