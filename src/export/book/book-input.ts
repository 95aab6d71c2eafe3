import type { Plan } from '../../params/plan.js';
import type { Collector } from '../../parts/collector/collector.js';
import type { Pattern } from '../../parts/patterns/pattern.js';
import type { OutputFile } from '../output-file.js';
import type { Summary } from '../summary/summary-schema.js';
import type { BookSection } from './book-section.js';
import type { SceneData } from './scene-data.js';

/** What a book needs that only the disk has. */
export interface BookPage {
  /** The browser's script, as it is bundled. */
  readonly script: string;
  /** The plan as it was written, and the name of its file; null leaves the plan's text out. */
  readonly source: {
    /** File name of the plan. */
    readonly name: string;
    /** The plan as it was written. */
    readonly text: string;
  } | null;
}

/** What the build book tells of. Tables and drawings are read from the other files of the build, the rest from the summary. */
export interface BookInput {
  readonly plan: Plan;
  readonly summary: Summary;
  /** The verdict in one line. */
  readonly verdict: string;
  readonly files: readonly OutputFile[];
  readonly collectors: readonly Collector[];
  readonly patterns: readonly Pattern[];
  /** Null leaves the three views alone where the solid view stands. */
  readonly scene: SceneData | null;
  readonly page: BookPage;
  /** Told by other stages: tuning plots. */
  readonly sections: readonly BookSection[];
}
