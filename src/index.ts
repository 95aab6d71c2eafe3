/** The library: read a plan, route and check a header, build its parts, and get every file as bytes. Nothing here touches the disk. */

export { checkedSummary } from './checked-summary.js';
export type { Finding, FindingLevel } from './checks/finding.js';
export { type Compared, type Comparison, compareHeaders } from './compare.js';
export type { BookPage } from './export/book/book-input.js';
export type { BookSection } from './export/book/book-section.js';
export type { OutputFile, OutputKind } from './export/output-file.js';
export { type Summary, summaryJsonSchema } from './export/summary-schema.js';
export { outputsOf } from './outputs.js';
export { planJsonSchema } from './params/json-schema.js';
export type { Plan } from './params/plan.js';
export type { PlanProblem } from './params/plan-problem.js';
export { type ReadPlan, readPlan } from './params/read-plan.js';
export {
  type BuiltHeader,
  buildHeader,
  type Progress,
  type RoutedHeader,
  type Routing,
  routeHeader,
  verdictOf,
} from './pipeline.js';
export type { Miss } from './routing/miss.js';
export type { RoutedPrimary } from './routing/routed.js';
export { sweepsOf, type Tuning, tuningFiles, tuningOf, tuningSections } from './tune.js';
