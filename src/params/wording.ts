import { inches, type LengthUnit } from './units.js';

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

/** A length in mm as the plan's own unit says it: `25.4 mm`, `1 in`. */
export const lengthWords = (mm: number, unit: LengthUnit): string =>
  unit === 'in' ? `${tidy(inches(mm))} in` : `${tidy(mm)} mm`;

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
