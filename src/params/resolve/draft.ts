import type { PlanFile } from '../schema/plan-file.js';

/** The sections of a plan file that are sound in themselves, and the names of all that were given. */
export interface Draft {
  readonly sections: Partial<PlanFile>;
  readonly given: ReadonlySet<string>;
}
