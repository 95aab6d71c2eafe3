import { inches, type LengthUnit } from '../units.js';

const LONGEST = 40;

/** A value as a message shows it: text in quotes, lists and sections by their kind; empty when there is none. */
export function show(value: unknown): string {
  if (value === undefined) return '';
  if (value === null) return 'nothing';
  if (Array.isArray(value)) {
    const short = JSON.stringify(value);
    return short.length <= LONGEST ? short : `a list of ${value.length}`;
  }
  if (typeof value === 'object') return 'a section with its own fields';
  if (typeof value !== 'string') return String(value);
  const text = JSON.stringify(value);
  return text.length <= LONGEST ? text : `${text.slice(0, LONGEST)}..."`;
}

/** A text that is safe to print on one line: control, format and unassigned characters, and line separators, as escapes. */
export const printable = (text: string): string =>
  text.replace(/[\p{C}\p{Zl}\p{Zp}]/gu, (c) => c.split('').map(escaped).join(''));

/** One 16-bit unit of a text as an escape: a character beyond U+FFFF has two. */
const escaped = (unit: string): string => `\\u${unit.charCodeAt(0).toString(16).padStart(4, '0')}`;

/** `expected a length, found "abc"`; the second half is left out when there is no value at all. */
export function expected(what: string, value: unknown): string {
  const found = show(value);
  return found === '' ? `expected ${what}` : `expected ${what}, found ${found}`;
}

/**
 * A length in mm as the plan's own unit says it: `25.4 mm`, `1 in`. With a number of digits it is written with just so many after
 * the point, in inches with two more: `25.40 mm`, `1.0000 in`.
 */
export const lengthWords = (mm: number, unit: LengthUnit, digits?: number): string =>
  `${inUnit(mm, unit, digits)} ${unit}`;

/** Lengths in mm as the words of a plan's unit. */
export type LengthWords = (mm: number, digits?: number) => string;

/** How a plan in a unit says lengths. */
export const lengthsIn =
  (unit: LengthUnit): LengthWords =>
  (mm, digits) =>
    lengthWords(mm, unit, digits);

/** Sizes in mm with their unit once: `40.0 x 30.0 mm`. */
export const sizeWords = (sizes: readonly number[], unit: LengthUnit, digits?: number): string =>
  `${sizes.map((mm) => inUnit(mm, unit, digits)).join(' x ')} ${unit}`;

/** A place with its unit once: `(1.0, 2.0, 3.0) mm`. */
export const pointWords = (point: readonly number[], unit: LengthUnit, digits?: number): string =>
  `(${point.map((mm) => inUnit(mm, unit, digits)).join(', ')}) ${unit}`;

/** An area in mm2 with so many digits: `12 mm2`, in inches with three more: `0.019 in2`. */
export const areaWords = (mm2: number, unit: LengthUnit, digits: number): string =>
  unit === 'in' ? `${plain(inches(inches(mm2)), digits + 3)} in2` : `${plain(mm2, digits)} mm2`;

/** A volume in mm3 with so many digits: `12.0 mm3`, in inches with four more: `0.00073 in3`. */
export const volumeWords = (mm3: number, unit: LengthUnit, digits: number): string =>
  unit === 'in' ? `${plain(inches(inches(inches(mm3))), digits + 4)} in3` : `${plain(mm3, digits)} mm3`;

/** A volume in mm3 that is filled or ground away: `1.2 cm3`, `0.07 in3`. */
export const fillWords = (mm3: number, unit: LengthUnit): string =>
  unit === 'in' ? `${plain(inches(inches(inches(mm3))), 2)} in3` : `${plain(mm3 / 1000, 1)} cm3`;

function inUnit(mm: number, unit: LengthUnit, digits?: number): string {
  const value = unit === 'in' ? inches(mm) : mm;
  if (digits === undefined) return tidy(value);
  return plain(value, unit === 'in' ? digits + 2 : digits);
}

/** So many digits after the point, never -0. */
function plain(value: number, digits: number): string {
  const text = value.toFixed(digits);
  return Number(text) === 0 ? text.replace('-', '') : text;
}

/** `a`, `a or b`, `a, b or c`. */
export function either(options: readonly string[], last = 'or'): string {
  if (options.length < 2) return options.join('');
  return `${options.slice(0, -1).join(', ')} ${last} ${options.at(-1)}`;
}

/** A number for people: up to three decimals, no trailing zeros. */
export const tidy = (value: number): string => String(Math.round(value * 1000) / 1000 + 0);

/** A remark as a sentence: its first letter large, one full stop at its end. */
export const sentence = (remark: string): string =>
  `${remark.charAt(0).toUpperCase()}${remark.slice(1).replace(/\.$/, '')}.`;
