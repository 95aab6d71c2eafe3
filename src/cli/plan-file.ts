import { readFileSync, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { formatProblems, type PlanProblem } from '../params/faults/plan-problem.js';
import type { Plan } from '../params/plan.js';
import { type ReadPlan, readPlan } from '../params/read-plan.js';
import type { ReadFile } from '../params/scans.js';
import { withTargets } from '../tuning/targets.js';
import { CommandError, EXIT } from './exit-code.js';
import { readPlanFile, reasonOf } from './read-file.js';

/** The plan in a file, with the scans it names and its target length fixed. Throws CommandError naming line and field of everything that is wrong with it. */
export const loadPlan = async (path: string): Promise<Plan> => (await loadPlanAndText(path)).plan;

/** The same with the text it was read from. */
export async function loadPlanAndText(path: string): Promise<{ readonly plan: Plan; readonly text: string }> {
  const text = await readPlanFile(path);
  const read = readAimedPlan(text, path, planFileReader(dirname(path)));
  if (read.ok) return { plan: read.plan, text };
  throw wrongPlan(read.problems, path);
}

/** A plan from its text, its target length fixed; or everything that is wrong with it. */
export function readAimedPlan(text: string, path: string, readFile: ReadFile): ReadPlan {
  const read = readPlan(text, path, readFile);
  if (!read.ok) return read;
  const targets = withTargets(read.plan);
  if (targets.ok) return { ...read, plan: targets.plan };
  const problems = targets.faults.map(read.problemAt);
  return { ok: false, problems, text: formatProblems(problems, path) };
}

/** What a command ends with that is given a wrong plan. */
export function wrongPlan(problems: readonly PlanProblem[], path: string): CommandError {
  const count = problems.length;
  const text = formatProblems(problems, path);
  return new CommandError(EXIT.wrongInput, `the plan has ${count} ${count === 1 ? 'fault' : 'faults'}\n${text}`, {
    problems,
  });
}

/**
 * Reads the files a plan names, relative to its folder. The reader throws Error with the reason in words. What the system says is
 * empty is not opened: some files of its own look so, and never end.
 */
export const planFileReader =
  (folder: string): ReadFile =>
  (name, most) => {
    const path = resolve(folder, name);
    try {
      const stats = statSync(path);
      if (!stats.isFile()) throw new Error('it is not a file');
      const { size } = stats;
      if (size > most) throw new Error(`it has ${size} bytes, more than ${most}`);
      return size === 0 ? new Uint8Array(0) : readFileSync(path);
    } catch (error) {
      throw new Error(reasonOf(error as NodeJS.ErrnoException));
    }
  };
