import { readFileSync, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { LARGEST_MESH_FILE } from '../params/limits.js';
import type { Plan } from '../params/plan.js';
import { type ReadPlan, readPlan } from '../params/read-plan.js';
import type { ReadFile } from '../params/scans.js';
import { CommandError, EXIT } from './exit-code.js';
import { readPlanFile, reasonOf } from './read-file.js';

/** The plan in a file, with the scans it names. Throws CommandError naming line and field of everything that is wrong with it. */
export const loadPlan = async (path: string): Promise<Plan> => (await loadPlanAndText(path)).plan;

/** The same with the text it was read from. */
export async function loadPlanAndText(path: string): Promise<{ readonly plan: Plan; readonly text: string }> {
  const text = await readPlanFile(path);
  const read = readPlan(text, path, planFileReader(dirname(path)));
  if (read.ok) return { plan: read.plan, text };
  throw refusedPlan(read);
}

/** The end of a command whose plan is wrong. */
export function refusedPlan({ problems, text }: Extract<ReadPlan, { ok: false }>): CommandError {
  const count = problems.length;
  const message = `the plan has ${count} ${count === 1 ? 'fault' : 'faults'}\n${text}`;
  return new CommandError(EXIT.wrongInput, message, { problems });
}

/** Reads the files a plan names, relative to its folder. The reader throws Error with the reason in words. */
export const planFileReader =
  (folder: string): ReadFile =>
  (name) => {
    const path = resolve(folder, name);
    try {
      const stats = statSync(path);
      if (!stats.isFile()) throw new Error('it is not a file');
      const { size } = stats;
      if (size > LARGEST_MESH_FILE) throw new Error(`it has ${size} bytes, more than ${LARGEST_MESH_FILE}`);
      return readFileSync(path);
    } catch (error) {
      throw new Error(reasonOf(error as NodeJS.ErrnoException));
    }
  };
