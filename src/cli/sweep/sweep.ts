import { dirname } from 'node:path';
import type { CommandModule } from 'yargs';
import { LARGEST_SWEEP_FILE } from '../../params/limits.js';
import { designCount, planTextWith, type SweepAxis, sweepAxis } from '../../params/text/sweep-axes.js';
import { CommandError, EXIT, type ExitCode } from '../exit-code.js';
import { planFileReader, readAimedPlan, wrongPlan } from '../plan-file.js';
import { readPlanFile, readTextFile } from '../read-file.js';
import { type SweepJob, sweptDesign } from './sweep-designs.js';
import { mergedSweep, type SweepHead } from './sweep-lines.js';

interface SweepArgs {
  readonly plan: string | undefined;
  readonly vary: readonly string[];
  readonly shard: string;
  readonly effort: number;
  readonly merge: readonly string[];
}

/** How often a design's search may ask whether to go on: a four takes some hundreds. */
const EFFORT = 4000;

/** `evenrun sweep PLAN --vary FIELD=FROM:TO:STEP`: routes many designs of one plan, a line of JSON each. */
export const sweepCommand = (end: (code: ExitCode) => void): CommandModule<object, SweepArgs> => ({
  command: 'sweep [plan]',
  describe: 'Route many designs of one plan and print a line of JSON for each; write nothing',
  builder: (y) =>
    y
      .positional('plan', { type: 'string', describe: 'Plan file (YAML or JSON)' })
      .option('vary', {
        type: 'string',
        array: true,
        nargs: 1,
        default: [],
        describe: 'FIELD=FROM:TO:STEP or FIELD=VALUE,VALUE,...; once for each field',
      })
      .option('shard', {
        type: 'string',
        requiresArg: true,
        default: '1/1',
        describe: 'K/N: only part K of N, for the jobs of a cluster',
      })
      .option('effort', {
        type: 'number',
        requiresArg: true,
        default: EFFORT,
        describe: 'How far to search for the routes of each design; counted, not timed',
      })
      .option('merge', {
        type: 'string',
        array: true,
        default: [],
        describe: 'Print the files of all parts as one sweep instead',
      })
      .example('$0 sweep my-engine.yaml --vary runners.length=700:820:10 --vary collector.at.1=-380:-320:20', '')
      .example('$0 sweep --merge part-1.jsonl part-2.jsonl > sweep.jsonl', ''),
  handler: async ({ plan, vary, shard, effort, merge }) => {
    if (merge.length > 0) {
      if (plan !== undefined || vary.length > 0)
        throw wrong('--merge takes the files of a sweep, no plan and no --vary');
      process.stdout.write(await merged(merge));
      return end(EXIT.ok);
    }
    if (plan === undefined) throw wrong('sweep needs a plan, or --merge FILE ...');
    if (!(Number.isInteger(effort) && effort >= 1 && effort <= 1e9)) {
      throw wrong(`--effort is a whole number from 1 to 1000000000, not ${effort}`);
    }
    const { head, job } = await prepared(plan, vary.map(axisOf), partOf(shard), effort);
    await say(head);
    const [part, parts] = head.shard;
    let passed = 0;
    for (let design = part - 1; design < head.designs; design += parts) {
      const swept = sweptDesign(job, design);
      if (swept.outcome === 'passed') passed += 1;
      await say(swept);
    }
    end(passed > 0 ? EXIT.ok : EXIT.failedCheck);
  },
});

const wrong = (message: string): CommandError => new CommandError(EXIT.wrongInput, message);

/** What throws RangeError, as an error of the call. */
function checked<T>(work: () => T, where = ''): T {
  try {
    return work();
  } catch (error) {
    if (error instanceof RangeError) throw wrong(`${where}${error.message}`);
    throw error;
  }
}

const axisOf = (text: string): SweepAxis => checked(() => sweepAxis(text), `--vary ${text}: `);

function partOf(text: string): [number, number] {
  const [part, parts] = /^(\d+)\/(\d+)$/.exec(text)?.slice(1).map(Number) ?? [];
  if (!part || !parts || part > parts) throw wrong(`--shard is K/N with K from 1 to N, such as 2/8, not ${text}`);
  return [part, parts];
}

async function prepared(
  path: string,
  axes: readonly SweepAxis[],
  shard: readonly [number, number],
  effort: number,
): Promise<{ head: SweepHead; job: SweepJob }> {
  const designs = checked(() => designCount(axes), '--vary: ');
  const text = await readPlanFile(path);
  const readFile = planFileReader(dirname(path));
  const read = readAimedPlan(text, path, readFile);
  if (!read.ok) throw wrongPlan(read.problems, path);
  checked(() =>
    planTextWith(
      text,
      axes,
      axes.map((a) => a.values[0]!),
    ),
  );
  const head: SweepHead = {
    schema: 'evenrun-sweep-1',
    plan: read.plan.name,
    plan_hash: read.plan.hash,
    vary: axes.map(({ field, values }) => ({ field, values })),
    effort,
    designs,
    shard,
  };
  return { head, job: { text, file: path, readFile, axes, effort } };
}

/** One line, once the reader of the pipe has taken what came before: memory stays flat however long the sweep. */
const say = (line: object): Promise<void> =>
  new Promise((done) => {
    if (process.stdout.write(`${JSON.stringify(line)}\n`)) done();
    else process.stdout.once('drain', done);
  });

async function merged(paths: readonly string[]): Promise<string> {
  const files = await Promise.all(
    paths.map(async (name) => ({ name, text: await readTextFile(name, LARGEST_SWEEP_FILE, 'a sweep') })),
  );
  return checked(() => mergedSweep(files));
}
