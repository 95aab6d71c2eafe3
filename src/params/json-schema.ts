import * as z from 'zod';
import { asBuiltSchema } from './as-built/schema.js';
import { planFileSchema } from './schema/plan-file.js';

/** The JSON Schema (draft 7, the newest that most editors read) of a plan file, for completion and hints in an editor. */
export function planJsonSchema(): Readonly<Record<string, unknown>> {
  return z.toJSONSchema(planFileSchema('mm'), { target: 'draft-7', io: 'input' });
}

/** The JSON Schema (draft 7) of an as-built file. */
export function asBuiltJsonSchema(): Readonly<Record<string, unknown>> {
  return z.toJSONSchema(asBuiltSchema('mm'), { target: 'draft-7', io: 'input' });
}
