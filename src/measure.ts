import { asBuiltBlank } from './export/summary/as-built-blank.js';
import type { AsBuiltSummary } from './export/summary/as-built-schema.js';
import { asBuiltSummary } from './export/summary/as-built-summary.js';
import { readAsBuilt } from './params/as-built/read-as-built.js';
import type { PlanProblem } from './params/faults/plan-problem.js';
import { asBuiltReport } from './parts/as-built/as-built-report.js';
import { asBuiltFaults } from './parts/as-built/faults.js';
import { tubesToMeasure } from './parts/as-built/tubes-to-measure.js';
import type { RoutedHeader } from './pipeline.js';

/** What the measurements of built tubes tell, or everything that is wrong with their file and the same as text, one line a problem. */
export type MeasuredHeader =
  | {
      readonly ok: true;
      /** True lengths, their spread, and what to cut or let in where. */
      readonly summary: AsBuiltSummary;
    }
  | {
      readonly ok: false;
      /** What is wrong, by line. */
      readonly problems: readonly PlanProblem[];
      /** The same as text. */
      readonly text: string;
    };

const tubesOf = ({ plan, primaries, secondaries, flanges }: RoutedHeader) =>
  tubesToMeasure(plan, [...primaries, ...secondaries], flanges);

/** An as-built file for a header, YAML, with the planned values to be written over with what was measured. */
export const asBuiltForm = (header: RoutedHeader): string => asBuiltBlank(header.plan, tubesOf(header));

/**
 * Holds what was measured of built tubes, an as-built file in YAML or JSON, against their header. `fileName` only names the file in
 * messages. Never throws for what the file holds.
 */
export function measureHeader(header: RoutedHeader, text: string, fileName: string): MeasuredHeader {
  const read = readAsBuilt(text, fileName);
  if (!read.ok) return read;
  const tubes = tubesOf(header);
  const faults = asBuiltFaults(header.plan, tubes, read.asBuilt);
  if (faults.length > 0) return read.refuse(faults);
  const found = asBuiltReport(header.plan, tubes, read.asBuilt);
  return { ok: true, summary: asBuiltSummary(header.plan.name, found) };
}
