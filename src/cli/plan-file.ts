import { readFileSync, statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { LARGEST_MESH_FILE } from '../params/limits.js';
import type { Plan } from '../params/plan.js';
import { readPlan } from '../params/read-plan.js';
import { CommandError, EXIT } from './exit-code.js';
import { readPlanFile, reasonOf } from './read-file.js';

/** The plan in a file, with the scans it names. Throws CommandError naming line and field of everything that is wrong with it. */
export async function loadPlan(path: string): Promise<Plan> {
  const read = readPlan(await readPlanFile(path), path, scanReader(dirname(path)));
  if (read.ok) return read.plan;
  const count = read.problems.length;
  throw new CommandError(EXIT.wrongInput, `the plan has ${count} ${count === 1 ? 'fault' : 'faults'}\n${read.text}`, {
    problems: read.problems,
  });
}

/** Reads the files a plan names, relative to its folder. The reader throws Error with the reason in words. */
export const scanReader =
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
