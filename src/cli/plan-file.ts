import { readFileSync, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { LARGEST_MESH_FILE } from '../params/limits.js';
import type { Plan } from '../params/plan.js';
import { formatProblems, type PlanProblem } from '../params/plan-problem.js';
import { readPlan } from '../params/read-plan.js';
import { withTargets } from '../tuning/targets.js';
import { CommandError, EXIT } from './exit-code.js';
import { readPlanFile, reasonOf } from './read-file.js';

/** The plan in a file, with the scans it names and its target length fixed. Throws CommandError naming line and field of everything that is wrong with it. */
export async function loadPlan(path: string): Promise<Plan> {
  const read = readPlan(await readPlanFile(path), path, scanReader(dirname(path)));
  if (!read.ok) throw wrongPlan(read.problems, path);
  const targets = withTargets(read.plan);
  if (!targets.ok) throw wrongPlan(targets.faults.map(read.problemAt), path);
  return targets.plan;
}

/** What a command ends with that is given a wrong plan. */
export function wrongPlan(problems: readonly PlanProblem[], path: string): CommandError {
  const count = problems.length;
  const text = formatProblems(problems, path);
  return new CommandError(EXIT.wrongInput, `the plan has ${count} ${count === 1 ? 'fault' : 'faults'}\n${text}`, {
    problems,
  });
}

/** Reads the files a plan names, relative to its folder. The reader throws Error with the reason in words. */
const scanReader =
  (folder: string) =>
  (name: string): Uint8Array => {
    const path = resolve(folder, name);
    try {
      const { size } = statSync(path);
      if (size > LARGEST_MESH_FILE) throw new Error(`it has ${size} bytes, more than ${LARGEST_MESH_FILE}`);
      return readFileSync(path);
    } catch (error) {
      throw new Error(reasonOf(error as NodeJS.ErrnoException));
    }
  };
