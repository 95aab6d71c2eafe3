/** Something wrong with a plan, at its place in the file. */
export interface PlanProblem {
  /** From 1. */
  readonly line: number;
  /** From 1. */
  readonly column: number;
  /** Field of the plan, `head.ports.1.at.0`; list entries count from 0; empty for the file as a whole. */
  readonly path: string;
  /** What was found and what is allowed. */
  readonly message: string;
}

/** `plan.yaml:7:14 head.ports.1.at.1: expected a length such as 44.45 or "1.75 in", found "abc"`. */
function formatProblem(problem: PlanProblem, fileName: string): string {
  const { line, column, path, message } = problem;
  return `${fileName}:${line}:${column}${path === '' ? '' : ` ${path}`}: ${message}`;
}

/** Every problem on a line of its own. */
export const formatProblems = (problems: readonly PlanProblem[], fileName: string): string =>
  problems.map((p) => formatProblem(p, fileName)).join('\n');

/** A fault of a plan by the path of its field, before its line is looked up. */
export interface PlanFault {
  /** Where in the plan. */
  readonly path: PlanPath;
  /** What was found and what is allowed. */
  readonly message: string;
  /** True where the name of the field is at fault and not its value. */
  readonly atKey?: boolean;
}

/** Names of sections and fields and numbers of list entries from 0. */
export type PlanPath = readonly (string | number)[];
