import type * as z from 'zod';
import { nearestName } from './nearest-name.js';
import type { PlanFault } from './plan-problem.js';
import { either, expected, show } from './wording.js';

/** Messages for what zod finds wrong and no field words itself. */
export const wordIssue: z.core.$ZodErrorMap = (issue) => {
  switch (issue.code) {
    case 'invalid_type':
      return expected(KINDS[issue.expected] ?? issue.expected, issue.input);
    case 'invalid_value':
      return unknownChoice(issue.values.map(String), issue.input);
    case 'invalid_union':
      return issue.discriminator === undefined
        ? undefined
        : unknownChoice(optionsOf(issue.options), kindOf(issue.input, issue.discriminator));
    case 'too_big':
      return expected(`at most ${count(issue.maximum, issue.origin)}`, issue.input);
    case 'too_small':
      return expected(`at least ${count(issue.minimum, issue.origin)}`, issue.input);
    case 'unrecognized_keys':
      return knownKeys(issue.inst).join(' ');
    default:
      return undefined;
  }
};

const count = (n: number | bigint, origin: string): string =>
  origin === 'array' ? `${n} ${n === 1 ? 'entry' : 'entries'}` : String(n);

const KINDS: Readonly<Record<string, string>> = {
  object: 'a section with fields',
  array: 'a list such as [1, 2, 3]',
  tuple: 'a list such as [1, 2, 3]',
  string: 'text',
  boolean: 'true or false',
};

const optionsOf = (options: unknown): readonly string[] => (Array.isArray(options) ? options.map(String) : []);

const kindOf = (input: unknown, field: string): unknown =>
  typeof input === 'object' && input !== null ? (input as Record<string, unknown>)[field] : undefined;

function unknownChoice(choices: readonly string[], found: unknown): string {
  const near = typeof found === 'string' ? nearestName(found, choices) : null;
  return expected(either(choices), found) + (near === null ? '' : `; did you mean ${show(near)}?`);
}

const knownKeys = (inst: unknown): readonly string[] =>
  Object.keys((inst as { _zod?: { def?: { shape?: object } } } | undefined)?._zod?.def?.shape ?? {});

/** Faults of a plan from what zod found: one for each unknown field, and missing fields named as such. */
export function faultsOf(issues: readonly z.core.$ZodIssue[], value: unknown): PlanFault[] {
  return issues.flatMap(meant).flatMap((issue): PlanFault[] => {
    const path = issue.path.map((step) => (typeof step === 'number' ? step : String(step)));
    if (issue.code === 'unrecognized_keys') {
      return issue.keys.map((key) => ({ path: [...path, key], atKey: true, message: unknownKey(key, issue.message) }));
    }
    if (path.length > 0 && issue.code !== 'custom' && valueAt(value, path) === undefined) {
      return [{ path, message: `missing; ${issue.message}` }];
    }
    return [{ path, message: issue.message }];
  });
}

/** Where a field takes several kinds of value and what was found is clearly one of them, the faults of that kind; else the fault itself. */
function meant(issue: z.core.$ZodIssue): readonly z.core.$ZodIssue[] {
  if (issue.code !== 'invalid_union' || issue.discriminator !== undefined) return [issue];
  const reached = issue.errors.filter(([first]) => first !== undefined && !ofAnotherKind(first));
  if (reached.length !== 1) return [issue];
  return reached[0]!.map((inner) => ({ ...inner, path: [...issue.path, ...inner.path] })).flatMap(meant);
}

/** True when the value is not of the kind that was tried, so that nothing in it was looked at. */
function ofAnotherKind(issue: z.core.$ZodIssue): boolean {
  if (issue.path.length > 0) return false;
  if (issue.code === 'custom') return issue.params?.noLength === true;
  return issue.code === 'invalid_type' || issue.code === 'invalid_value' || issue.code === 'invalid_union';
}

function unknownKey(key: string, known: string): string {
  const names = known.split(' ').filter((name) => name !== '');
  const near = nearestName(key, names);
  if (near !== null) return `unknown field; did you mean ${show(near)}?`;
  return `unknown field; this section has ${either(names, 'and')}`;
}

function valueAt(value: unknown, path: readonly (string | number)[]): unknown {
  return path.reduce<unknown>(
    (v, step) => (typeof v === 'object' && v !== null ? (v as Record<string | number, unknown>)[step] : undefined),
    value,
  );
}
