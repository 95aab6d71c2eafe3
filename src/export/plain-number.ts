/** A number for a file: finite, rounded to so many decimals, never -0 nor in powers of ten. Throws RangeError for NaN and infinities. */
export function plainNumber(value: number, decimals: number): number {
  if (!Number.isFinite(value)) throw new RangeError(`a drawing cannot hold the number ${value}`);
  const rounded = Number(value.toFixed(decimals));
  return rounded === 0 ? 0 : rounded;
}
