import { spawn } from 'node:child_process';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Summary } from '../export/summary/summary-schema.js';
import { lengthsIn } from '../params/faults/wording.js';
import { LARGEST_SUMMARY } from '../params/limits.js';
import type { LengthUnit } from '../params/units.js';
import { CommandError, EXIT, type ExitCode } from './exit-code.js';
import { loadPlan } from './plan-file.js';
import { readTextFile } from './read-file.js';
import { textTable } from './report/text-table.js';

/** What the table says of a build: all that is kept of its summary, so that memory stays flat over a long batch. */
export interface BuiltRow {
  readonly passed: boolean;
  /** Of the plan. */
  readonly units: LengthUnit;
  readonly primaries: number;
  /** mm, as are the next two. */
  readonly target: number;
  readonly spread: number;
  /** Null where nothing stands near any tube. */
  readonly leastGap: number | null;
}

/** What became of one plan of a batch. */
export interface Batched {
  readonly plan: string;
  readonly folder: string;
  readonly exit: ExitCode;
  /** True when its folder held the build of this very plan already. */
  readonly kept: boolean;
  /** Null when nothing was written. */
  readonly row: BuiltRow | null;
  /** What stopped it, in one line; empty when nothing did. */
  readonly said: string;
}

interface BatchJob {
  readonly plans: readonly string[];
  readonly out: string;
  readonly jobs: number;
  readonly resume: boolean;
  readonly simulate: boolean;
}

/**
 * Builds many plans, each in a process of its own into a folder named for it, so many at a time, and goes on when one fails. Told of
 * each as it ends. Throws CommandError for two plans of one name.
 */
export async function buildBatch(job: BatchJob, told: (batched: Batched) => void): Promise<readonly Batched[]> {
  const plans = job.plans.map((plan) => ({ plan, folder: join(job.out, folderName(plan)) }));
  const twice = plans.find((a, i) => plans.findIndex((b) => b.folder === a.folder) < i);
  if (twice) throw new CommandError(EXIT.wrongInput, `two plans would be built into ${twice.folder}; rename one`);
  const results: Batched[] = [];
  let next = 0;
  const worker = async (): Promise<void> => {
    for (let i = next++; i < plans.length; i = next++) {
      const { plan, folder } = plans[i]!;
      const batched =
        (job.resume && (await keptBuild(plan, folder))) ||
        (await buildOne(plan, folder, job.simulate ? ['--simulate'] : []));
      results[i] = batched;
      told(batched);
    }
  };
  await Promise.all(Array.from({ length: Math.min(job.jobs, plans.length) }, worker));
  return results;
}

/** A plan's name without its ending. Throws CommandError where no folder below `--out` can be named so. */
function folderName(plan: string): string {
  const name = basename(plan).replace(/\.(ya?ml|json)$/, '');
  if (/^\.*$/.test(name)) throw new CommandError(EXIT.wrongInput, `${plan} gives its folder no name; rename it`);
  return name;
}

const MAIN = fileURLToPath(new URL('./main.js', import.meta.url));

/** A path that is not taken for an option. */
const named = (path: string): string => (path.startsWith('-') ? `./${path}` : path);

function buildOne(plan: string, folder: string, options: readonly string[]): Promise<Batched> {
  return new Promise((done) => {
    const child = spawn(process.execPath, [MAIN, 'build', named(plan), '--json', '--out', named(folder), ...options], {
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    let [out, err] = ['', ''];
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      if (out.length < LARGEST_SUMMARY) out += text;
    });
    child.stderr.setEncoding('utf8').on('data', (text: string) => {
      if (err.length < LARGEST_SUMMARY) err += text;
    });
    child.once('error', (error) => done(ended(plan, folder, null, '', String(error))));
    child.once('close', (code) => done(ended(plan, folder, code, out, err)));
  });
}

function ended(plan: string, folder: string, code: number | null, out: string, err: string): Batched {
  const exit = (Object.values(EXIT) as (number | null)[]).includes(code) ? (code as ExitCode) : EXIT.fault;
  const spoken = parsed(out);
  const row = spoken && 'primaries' in spoken ? rowOf(spoken as unknown as Summary) : null;
  const { message } = (spoken?.error ?? {}) as { message?: string };
  const said = row ? '' : (message ?? err.trim() ?? '') || 'it ended without a word';
  return { plan, folder, exit, kept: false, row, said };
}

function rowOf({ passed, units, primaries, spread_mm }: Summary): BuiltRow {
  const gaps = primaries.map((p) => p.clearance_mm).filter((c) => c !== null);
  return {
    passed,
    units,
    primaries: primaries.length,
    target: primaries[0]!.target_mm,
    spread: spread_mm,
    leastGap: gaps.length > 0 ? Math.min(...gaps) : null,
  };
}

function parsed(text: string): Record<string, unknown> | null {
  try {
    return JSON.parse(text) as Record<string, unknown>;
  } catch {
    return null;
  }
}

/** The build of this very plan that its folder holds already; null when it holds none, or one of another text. */
async function keptBuild(plan: string, folder: string): Promise<Batched | null> {
  const text = await readTextFile(join(folder, 'summary.json'), LARGEST_SUMMARY, 'a summary').catch(() => '');
  const summary = parsed(text) as Summary | null;
  if (summary === null) return null;
  const hash = await loadPlan(plan).then(
    (p) => p.hash,
    () => null,
  );
  if (hash === null || summary.plan_hash !== hash || !Array.isArray(summary.primaries)) return null;
  return { plan, folder, exit: summary.passed ? EXIT.ok : EXIT.failedCheck, kept: true, row: rowOf(summary), said: '' };
}

/** The graver end first: what a batch as a whole tells a script. */
const GRAVITY: readonly ExitCode[] = [EXIT.fault, EXIT.wrongInput, EXIT.noRoute, EXIT.failedCheck, EXIT.ok];

export const gravest = (all: readonly Batched[]): ExitCode => GRAVITY.find((code) => all.some((b) => b.exit === code))!;

const ENDS: Readonly<Record<ExitCode, string>> = {
  [EXIT.ok]: 'all checks hold',
  [EXIT.failedCheck]: 'a check fails',
  [EXIT.wrongInput]: 'plan refused',
  [EXIT.noRoute]: 'no route',
  [EXIT.fault]: 'fault of the program',
};

/** One line for a plan that has ended, with what stopped it. */
export const batchedLine = ({ plan, exit, kept, said }: Batched): string =>
  `${plan}: ${ENDS[exit]}${kept ? ', kept from before' : ''}${said === '' ? '' : `\n  ${said.split('\n').join('\n  ')}`}`;

/** The table of a whole batch. */
export function batchTable(all: readonly Batched[]): string {
  const rows = all.map(({ plan, exit, kept, row }) => {
    const words = lengthsIn(row?.units ?? 'mm');
    const told = (value: number | null | undefined, digits: number): string =>
      value == null ? '-' : words(value, digits);
    return [
      plan,
      ENDS[exit] + (kept ? ' (kept)' : ''),
      row ? String(row.primaries) : '-',
      told(row?.target, 1),
      told(row?.spread, 3),
      told(row?.leastGap, 2),
    ];
  });
  const count = (code: ExitCode): number => all.filter((b) => b.exit === code).length;
  const told = GRAVITY.filter((code) => count(code) > 0).map((code) => `${count(code)} ${ENDS[code]}`);
  const table = textTable([['plan', 'outcome', 'primaries', 'length', 'spread', 'least gap'], ...rows]);
  return `${table.join('\n')}\n\n${all.length} plans: ${told.reverse().join(', ')}.\n`;
}

/** The same as one JSON object. */
export const batchJson = (all: readonly Batched[]): object => ({
  schema: 'evenrun-batch-1',
  plans: all.map(({ plan, folder, exit, kept, row, said }) => ({
    plan,
    folder,
    exit,
    kept,
    passed: row?.passed ?? false,
    spread_mm: row?.spread ?? null,
    said: said === '' ? null : said,
  })),
});
