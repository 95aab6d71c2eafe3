import * as z from 'zod';
import { expected } from '../faults/wording.js';
import type { Lengths } from './length-field.js';

/** Largest area of a gas way, mm2: a bore of 360 mm. */
const LARGEST = 100_000;

/** An area as a number in the square of the plan's unit; gives mm2. */
export function areaField({ unit }: Lengths, about: string) {
  const square = unit === 'in' ? 25.4 ** 2 : 1;
  const most = Math.floor(LARGEST / square);
  const error = (issue: { readonly input?: unknown }) =>
    expected(`an area over 0 and at most ${most} ${unit}2`, issue.input);
  return z
    .number({ error })
    .positive({ error, abort: true })
    .max(most, { error, abort: true })
    .transform((area) => area * square)
    .describe(`${about}. A number in the plan's unit squared.`);
}
