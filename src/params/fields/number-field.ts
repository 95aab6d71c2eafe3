import * as z from 'zod';
import { radians } from '../../geometry/angle.js';
import { expected } from '../faults/wording.js';

/** A whole number within bounds, both included. */
export function countField(about: string, min: number, max: number) {
  const error = (issue: { readonly input?: unknown }) => expected(`a whole number from ${min} to ${max}`, issue.input);
  return z.int({ error }).min(min, { error, abort: true }).max(max, { error, abort: true }).describe(about);
}

/** A number within bounds, both included. */
export function numberField(about: string, min: number, max: number) {
  const error = (issue: { readonly input?: unknown }) => expected(`a number from ${min} to ${max}`, issue.input);
  return z.number({ error }).min(min, { error, abort: true }).max(max, { error, abort: true }).describe(about);
}

/** An angle in degrees within bounds, both included; stays in degrees. */
export function degreesField(about: string, min: number, max: number) {
  const error = (issue: { readonly input?: unknown }) =>
    expected(`an angle from ${min} to ${max} degrees`, issue.input);
  return z
    .number({ error })
    .min(min, { error, abort: true })
    .max(max, { error, abort: true })
    .describe(`${about}. Degrees.`);
}

/** An angle in degrees within bounds, both included; gives rad. */
export function angleField(about: string, min: number, max: number) {
  return degreesField(about, min, max).transform(radians).describe(`${about}. Degrees.`);
}
