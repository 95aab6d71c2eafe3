import * as z from 'zod';
import { expected } from '../wording.js';

const LONGEST_NAME = 80;

/** Control, format and unassigned characters, line and paragraph separators, lone halves of pairs, and the mark a wrong encoding leaves. */
const UNPRINTABLE = /[\p{C}\p{Zl}\p{Zp}\uFFFD]/u;

/** A short text that is printed on parts and written into files: one line, without control characters. */
export function nameField(about: string, example: string) {
  const what = `a name such as ${JSON.stringify(example)}`;
  const error = (issue: { readonly input?: unknown }) =>
    expected(`${what}: text of 1 to ${LONGEST_NAME} characters`, issue.input);
  return z
    .string({ error })
    .refine((text) => text.trim().length > 0 && text.length <= LONGEST_NAME, { error, abort: true })
    .refine((text) => !UNPRINTABLE.test(text), {
      error: (issue) => `${expected(`${what} without control characters`, issue.input)}; save the file as UTF-8`,
    })
    .meta({ description: about, minLength: 1, maxLength: LONGEST_NAME });
}
