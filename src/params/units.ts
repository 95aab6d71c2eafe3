/** Unit a plan may be written in, and that a length in text may carry. */
export type LengthUnit = 'mm' | 'in';

/** Millimetres from a length in a unit. The inch is exactly 25.4 mm; 127/5 keeps decimal inches exact where 25.4 would round twice. */
export const millimetres = (value: number, unit: LengthUnit): number => (unit === 'in' ? (value * 127) / 5 : value);

/** Inches from millimetres. */
export const inches = (mm: number): number => (mm * 5) / 127;

const DECIMAL = String.raw`\d+(?:\.\d*)?(?:[eE][+-]?\d+)?|\.\d+(?:[eE][+-]?\d+)?`;
const FRACTION = String.raw`(?:\d+(?:\s+|-))?\d+\s*/\s*\d+`;
const LENGTH = new RegExp(String.raw`^\s*([+-]?)\s*(${FRACTION}|${DECIMAL})\s*(mm|in|")\s*$`);

/** What a length in text looks like, for editors: a decimal or a fraction with its unit. */
export const LENGTH_PATTERN = LENGTH.source;

/**
 * Millimetres of a length as plans write it: a number in the plan's own unit, or text that carries its unit, such as
 * `44.45 mm`, `1.75 in` or `1 3/4 in`. Null when it is neither, is not finite, or is text without a unit: a unit is never guessed.
 */
export function parseLength(value: number | string, planUnit: LengthUnit): number | null {
  if (typeof value === 'number') return finiteOrNull(millimetres(value, planUnit));
  const match = LENGTH.exec(value);
  if (match === null) return null;
  const [, sign, size, unit] = match;
  const length = millimetres(sizeOf(size!), unit === 'mm' ? 'mm' : 'in');
  return finiteOrNull(sign === '-' ? -length : length);
}

function sizeOf(text: string): number {
  if (!text.includes('/')) return Number(text);
  const parts = text.split(/[\s/-]+/).map(Number);
  const [whole, top, bottom] = parts.length === 3 ? parts : [0, ...parts];
  return whole! + top! / bottom!;
}

/** Lengths of a plan are whole multiples of a millionth of a micrometre: a search that weighs routes must not tell 1.75 in from 44.45 mm. */
const STEPS = 1e9;

/** Lengths whose steps a number cannot count stay as they are; no plan may have them. */
const MOST_STEPS = 2 ** 53;

/** The length on its step, a negative zero made positive; null for what is not finite. */
function finiteOrNull(mm: number): number | null {
  if (!Number.isFinite(mm)) return null;
  return (Math.abs(mm) * STEPS < MOST_STEPS ? Math.round(mm * STEPS) / STEPS : mm) + 0;
}
