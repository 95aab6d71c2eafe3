import type { Plan } from '../params/plan.js';
import { readPlan } from '../params/read-plan.js';
import { CommandError, EXIT } from './exit-code.js';
import { readPlanFile } from './read-file.js';

/** The plan in a file. Throws CommandError naming line and field of everything that is wrong with it. */
export async function loadPlan(path: string): Promise<Plan> {
  const read = readPlan(await readPlanFile(path), path);
  if (read.ok) return read.plan;
  const count = read.problems.length;
  throw new CommandError(EXIT.wrongInput, `the plan has ${count} ${count === 1 ? 'fault' : 'faults'}\n${read.text}`, {
    problems: read.problems,
  });
}
