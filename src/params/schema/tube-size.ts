import * as z from 'zod';
import { expected, lengthWords } from '../faults/wording.js';
import type { Lengths } from '../fields/length-field.js';
import { SAME_OD } from '../stock/pipe-sizes.js';
import { tubeSize } from '../stock/tube-size.js';

/** `size`, or `od` and `wall`. `whose` ends the descriptions. */
export const sizeFields = (lengths: Lengths, whose: string, largest: number) => ({
  size: z
    .string({ error: (issue) => expected('a size such as "NPS 1 1/2 10S" or "ISO 42.4 x 2"', issue.input) })
    .max(80)
    .optional()
    .describe(
      'Instead of od and wall: a size of pipe of ASME B36.19M such as "NPS 1 1/2 10S", of ISO 1127 in mm such as "ISO 42.4 x 2", or a name of stock.tables.sizes',
    ),
  od: lengths.positive(`Outside diameter${whose}; not needed where size names one`, { max: largest }).optional(),
  wall: lengths.positive(`Wall thickness${whose}; not needed where size names one`, { max: 20 }).optional(),
});

interface SizeSection {
  readonly size?: string | undefined;
  readonly od?: number | undefined;
  readonly wall?: number | undefined;
}

interface Issues {
  readonly addIssue: (issue: { code: 'custom'; path: string[]; message: string; input: unknown }) => void;
}

/** A section with outside diameter and wall, mm, from its fields or from the size it names. */
export function withSize<T extends SizeSection>(section: T, { unit }: Lengths, context: Issues) {
  const { size, ...rest } = section;
  const fault = (field: string, message: string): never => {
    context.addIssue({ code: 'custom', path: [field], message, input: section });
    return z.NEVER;
  };
  const named = size === undefined ? { od: null, wall: null } : tubeSize(size);
  if (typeof named === 'string')
    return fault('size', `${named}, or a name of stock.tables.sizes, found ${JSON.stringify(size)}`);
  const words = (mm: number) => lengthWords(mm, unit);
  for (const field of ['od', 'wall'] as const) {
    const [own, given] = [section[field], named[field]];
    if (own === undefined && given === null) fault(field, 'missing; expected a length such as 44.45 or "1.75 in"');
    if (own === undefined || given === null || Math.abs(own - given) < SAME_OD) continue;
    fault(
      field,
      `expected ${words(given)}, as size says, found ${words(own)}: leave ${field} away or mend one of them`,
    );
  }
  return { ...rest, od: named.od ?? section.od!, wall: named.wall ?? section.wall! };
}
