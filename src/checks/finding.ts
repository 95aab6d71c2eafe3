/** 'ok' holds, 'warn' wants a look, 'fail' breaks a limit of the plan. */
export type FindingLevel = 'ok' | 'warn' | 'fail';

/** The outcome of one rule at one place: what was found against what is allowed. */
export interface Finding {
  /** Name of the rule, stable for scripts: 'equal-length.spread'. */
  readonly id: string;
  /** Whether it holds. */
  readonly level: FindingLevel;
  /** Where: 'cylinder 2', 'cylinders 2 and 3', 'keep-out steering shaft'. */
  readonly place: string;
  /** What was found, in `unit`. */
  readonly value: number;
  /** What is allowed, in `unit`. */
  readonly limit: number;
  /** Unit of value and limit; a ratio and a count have none. */
  readonly unit: 'mm' | 'deg' | 'mm2' | 'mm3' | 'ratio' | 'count' | 's';
  /** One sentence a fabricator reads. */
  readonly message: string;
}
