import { degrees, wrapTwoPi } from '../../geometry/angle.js';
import { inches } from '../../params/units.js';

/** The unit a plan was written in. */
export type Units = 'mm' | 'in';

/** A number with so many digits after the point, never -0. Throws RangeError for NaN and infinities. */
export function fixed(value: number, digits: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`a sheet cannot hold the number ${value}`);
  const text = value.toFixed(digits);
  return Number(text) === 0 ? text.replace('-', '') : text;
}

/** A length in mm as sheets of inch plans show it: mm, and inches with two digits more. */
export const lengthLines = (mm: number, digits: number, units: Units): readonly string[] =>
  units === 'mm' ? [fixed(mm, digits)] : [fixed(mm, digits), `${fixed(inches(mm), digits + 2)} in`];

/** A length with its unit on one line: '123.4 mm', '123.4 mm (4.858 in)'. */
export const lengthWords = (mm: number, digits: number, units: Units): string =>
  units === 'mm' ? `${fixed(mm, digits)} mm` : `${fixed(mm, digits)} mm (${fixed(inches(mm), digits + 2)} in)`;

/** A turn right-handed along the flow as degrees clockwise and anticlockwise looking along it, both from 0 below 360. */
export function bothSenses(turn: number): { readonly clockwise: number; readonly anticlockwise: number } {
  const tenths = Math.round(degrees(wrapTwoPi(turn)) * 10) % 3600;
  return { clockwise: tenths / 10, anticlockwise: ((3600 - tenths) % 3600) / 10 };
}
