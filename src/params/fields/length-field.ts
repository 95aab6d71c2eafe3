import * as z from 'zod';
import { expected, lengthWords, show } from '../faults/wording.js';
import { LARGEST_LENGTH } from '../limits.js';
import { LENGTH_PATTERN, type LengthUnit, parseLength } from '../units.js';

/** Bounds of a length, mm. */
interface LengthBounds {
  /** The length must be larger than this. */
  readonly over?: number;
  readonly min?: number;
  readonly max?: number;
}

const A_LENGTH = 'a length such as 44.45 or "1.75 in"';

/** The fields for lengths of a plan written in one unit; what they give is always mm. */
export interface Lengths {
  readonly unit: LengthUnit;
  /** Larger than zero. */
  readonly positive: (about: string, bounds?: LengthBounds) => LengthField;
  /** Zero or larger. */
  readonly atLeastZero: (about: string, bounds?: LengthBounds) => LengthField;
  /** A coordinate: either sign. */
  readonly coordinate: (about: string) => LengthField;
  readonly point2: (about: string) => z.ZodTuple<[LengthField, LengthField], null>;
  readonly point3: (about: string) => z.ZodTuple<[LengthField, LengthField, LengthField], null>;
}

export type LengthField = z.ZodPipe<
  z.ZodUnion<readonly [z.ZodNumber, z.ZodString]>,
  z.ZodTransform<number, string | number>
>;

/** The length fields of a plan written in a unit. */
export function lengthsIn(unit: LengthUnit): Lengths {
  const coordinate = (about: string) => lengthField(unit, about, { min: -LARGEST_LENGTH });
  return {
    unit,
    positive: (about, bounds = {}) => lengthField(unit, about, { over: 0, ...bounds }),
    atLeastZero: (about, bounds = {}) => lengthField(unit, about, { min: 0, ...bounds }),
    coordinate,
    point2: (about) => z.tuple([coordinate('x'), coordinate('y')]).describe(about),
    point3: (about) => z.tuple([coordinate('x'), coordinate('y'), coordinate('z')]).describe(about),
  };
}

function lengthField(unit: LengthUnit, about: string, bounds: LengthBounds): LengthField {
  const { over, min, max = LARGEST_LENGTH } = bounds;
  return z
    .union([z.number(), z.string()], { error: (issue) => expected(A_LENGTH, issue.input) })
    .transform((value, context) => {
      const length = parseLength(value, unit);
      if (length === null) {
        const bare = typeof value === 'string' && /^\s*[+-]?[\d.]+\s*$/.test(value);
        const mend = bare ? ' without a unit: leave the quotes away or add mm or in' : '';
        context.addIssue({ code: 'custom', message: expected(A_LENGTH, value) + mend, params: { noLength: !bare } });
        return z.NEVER;
      }
      if ((over !== undefined && length <= over) || (min !== undefined && length < min) || length > max) {
        const found = typeof value === 'string' ? show(value) : `${value} ${unit}`;
        context.addIssue({ code: 'custom', message: `expected a length ${rangeWords(bounds, unit)}, found ${found}` });
        return z.NEVER;
      }
      return length;
    })
    .meta({
      description: `${about}. A number in the plan's unit, or text with its own unit such as "44.45 mm" or "1.75 in".`,
      anyOf: [
        { type: 'number', ...(over === 0 ? { exclusiveMinimum: 0 } : {}), ...(min === 0 ? { minimum: 0 } : {}) },
        { type: 'string', pattern: LENGTH_PATTERN },
      ],
    });
}

function rangeWords({ over, min, max = LARGEST_LENGTH }: LengthBounds, unit: LengthUnit): string {
  const most = lengthWords(max, unit);
  return over === undefined
    ? `from ${lengthWords(min ?? 0, unit)} to ${most}`
    : `over ${lengthWords(over, unit)} and at most ${most}`;
}
