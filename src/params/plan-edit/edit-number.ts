import { inches, type LengthUnit, parseLength } from '../units.js';

/** Decimals a length is rounded to: a hundredth of a millimetre, a thousandth of an inch and a little; routes finer, since their lengths are sums. */
const DECIMALS = { mm: 2, in: 4 } as const;
const FINE_DECIMALS = { mm: 4, in: 6 } as const;

/** How a number is written: no exponent, no negative zero, at least the decimals it was written with before. */
export function plainNumber(value: number, decimals: number, before = ''): string {
  const kept = /^[-+]?\d*\.(\d+)$/.exec(before)?.[1]?.length ?? 0;
  const rounded = Number(value.toFixed(decimals)) + 0;
  const least = rounded.toFixed(decimals).replace(/\.?0+$/, '');
  const has = least.split('.')[1]?.length ?? 0;
  return kept > has ? rounded.toFixed(Math.min(kept, decimals)) : least === '-0' || least === '' ? '0' : least;
}

/** A length in mm as plain text in a unit. */
export const lengthText = (mm: number, unit: LengthUnit, fine = false, before = ''): string =>
  plainNumber(unit === 'in' ? inches(mm) : mm, (fine ? FINE_DECIMALS : DECIMALS)[unit], before);

/** Differences below this, mm, are no change: the old text then stays as it is. */
const SAME = 5e-7;

/**
 * The source text of a length written over an older one: in the plan's unit when that was a plain number, in the unit it carried when it
 * was text, in the same quotes. The old text itself when it says the same length.
 */
export function lengthOver(
  mm: number,
  old: { readonly value: unknown; readonly source: string },
  unit: LengthUnit,
): string {
  const { value, source } = old;
  const was = typeof value === 'number' || typeof value === 'string' ? parseLength(value, unit) : null;
  if (was !== null && Math.abs(was - mm) < SAME) return source;
  if (typeof value !== 'string') return lengthText(mm, unit, false, source);
  const own: LengthUnit = /mm\s*$/.test(value) ? 'mm' : 'in';
  const number = /^\s*([-+]?[\d.]+)/.exec(value)?.[1] ?? '';
  const quote = /^["']/.exec(source)?.[0] ?? '';
  return `${quote}${lengthText(mm, own, false, value.includes('/') ? '' : number)} ${own}${quote}`;
}
