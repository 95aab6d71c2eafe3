import type { PlanSections } from './sections.js';

/** The sections of a plan file that are sound in themselves, traces read, and the names of all that were given. */
export interface Draft {
  readonly sections: Partial<PlanSections>;
  readonly given: ReadonlySet<string>;
}
