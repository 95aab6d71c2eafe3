import * as z from 'zod';
import { expected } from '../faults/wording.js';
import { LONGEST_NAME, LONGEST_PATH } from '../limits.js';

/** Control, format and unassigned characters, line and paragraph separators, lone halves of pairs, and the mark a wrong encoding leaves. */
const UNPRINTABLE = /[\p{C}\p{Zl}\p{Zp}\uFFFD]/u;

/** A short text that is printed on parts and written into files: one line, without control characters. */
export const nameField = (about: string, example: string) => lineField('a name', about, example, LONGEST_NAME);

/** The path of a file the plan goes with. */
export const fileField = (about: string, example: string) => lineField('a file', about, example, LONGEST_PATH);

function lineField(kind: string, about: string, example: string, longest: number) {
  const what = `${kind} such as ${JSON.stringify(example)}`;
  const error = (issue: { readonly input?: unknown }) =>
    expected(`${what}: text of 1 to ${longest} characters`, issue.input);
  return z
    .string({ error })
    .refine((text) => text.trim().length > 0 && text.length <= longest, { error, abort: true })
    .refine((text) => !UNPRINTABLE.test(text), {
      error: (issue) => `${expected(`${what} without control characters`, issue.input)}; save the file as UTF-8`,
    })
    .meta({ description: about, minLength: 1, maxLength: longest });
}
