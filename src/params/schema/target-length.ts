import * as z from 'zod';
import { expected, lengthWords } from '../faults/wording.js';
import type { Lengths } from '../fields/length-field.js';

/** `runners.length`: one length for every primary, the band it is chosen from, or `tuned`. */
export function targetLengthField(lengths: Lengths) {
  const { positive } = lengths;
  const band = z
    .strictObject({
      from: positive('Shortest common length'),
      to: positive('Longest common length'),
    })
    .superRefine((b, context) => {
      if (b.to > b.from) return;
      const [least, found] = [b.from, b.to].map((mm) => lengthWords(mm, lengths.unit));
      const message = `expected a length over ${least}, the shortest, found ${found}; for one length leave from and to away`;
      context.addIssue({ code: 'custom', path: ['to'], message, input: b });
    })
    .describe('A band: the routing chooses one length within it for all primaries.');
  return z
    .union([positive('Target length of every primary'), band, z.literal('tuned')], {
      error: (issue) => expected('a length such as 760, a band such as { from: 740, to: 800 }, or tuned', issue.input),
    })
    .describe(
      'Target length of every primary, head face to collector inlet plane, or the band it may be chosen from, or tuned: by the rule of tuning',
    );
}
