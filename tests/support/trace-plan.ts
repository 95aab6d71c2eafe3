import type { Plan, Port } from '../../src/params/plan.js';
import { type ReadPlan, readPlan } from '../../src/params/read-plan.js';
import { BASE, swap } from '../params/base-plan.js';

/** Files by name, as text or bytes. */
export type Files = Readonly<Record<string, string | Uint8Array>>;

const reader = (files: Files) => (path: string) => {
  const file = files[path];
  if (file === undefined) throw new Error('no such file');
  return typeof file === 'string' ? new TextEncoder().encode(file) : file;
};

const withShape = (fields: string) =>
  swap(BASE, 'shape: { kind: round, diameter: 38 }', `shape: { kind: traced, ${fields} }`);

/** The base plan with its first port traced by these fields. */
export const readTraced = (fields: string, files: Files): ReadPlan =>
  readPlan(withShape(fields), 'plan.yaml', reader(files));

/** The traced port of a plan that must be sound, and what is said of it. */
export function tracedOf(fields: string, files: Files): { readonly port: Port; readonly notes: readonly string[] } {
  const read = readTraced(fields, files);
  if (!read.ok) throw new Error(read.text);
  return { port: read.plan.ports[0]!, notes: read.plan.notes };
}

/** The one thing wrong with a traced port: its field and message. */
export function traceFault(fields: string, files: Files): string {
  return oneFault(readTraced(fields, files)).replace('head.ports.0.shape.', '');
}

const LISTED = BASE.slice(BASE.indexOf('  ports:'), BASE.indexOf('flange:'));

/** The base plan with its ports and bolts from a drawing. */
export const readHead = (fields: string, files: Files, listed = ''): ReadPlan =>
  readPlan(swap(BASE, LISTED, `  trace: { ${fields} }\n${listed}`), 'plan.yaml', reader(files));

export function headOf(fields: string, files: Files, listed = ''): Plan {
  const read = readHead(fields, files, listed);
  if (!read.ok) throw new Error(read.text);
  return read.plan;
}

export const headFault = (fields: string, files: Files, listed = ''): string =>
  oneFault(readHead(fields, files, listed)).replace('head.trace.', '');

function oneFault(read: ReadPlan): string {
  if (read.ok) throw new Error('the plan was accepted');
  if (read.problems.length !== 1) throw new Error(`more than one problem:\n${read.text}`);
  return `${read.problems[0]!.path}: ${read.problems[0]!.message}`;
}
