/** An axis of a plot: its values and where they stand on the picture. */
export interface Axis {
  readonly from: number;
  readonly to: number;
  /** Distance of ticks. */
  readonly step: number;
  readonly place: (value: number) => number;
}

/** How many ticks an axis has at about. */
const TICKS = 6;

/**
 * An axis that holds values between two places of the picture: `tight` begins and ends with them, `round` at whole ticks. Ticks are 1, 2 or 5
 * times a power of ten apart. Throws RangeError when a value is no finite number.
 */
export function axisFor(values: readonly number[], first: number, last: number, ends: 'tight' | 'round'): Axis {
  const wrong = values.find((v) => !Number.isFinite(v));
  if (wrong !== undefined) throw new RangeError(`a plot cannot hold the number ${wrong}`);
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const v of values) {
    low = Math.min(low, v);
    high = Math.max(high, v);
  }
  if (high - low < 1e-9 * Math.max(1, Math.abs(low))) {
    const room = Math.max(1, Math.abs(low) * 0.1);
    low -= room;
    high += room;
  }
  const step = tickStep((high - low) / TICKS);
  const [from, to] =
    ends === 'tight' ? [low, high] : [step * Math.floor(low / step + 1e-9), step * Math.ceil(high / step - 1e-9)];
  return { from, to, step, place: (value) => first + ((value - from) / (to - from)) * (last - first) };
}

/** 1, 2 or 5 times a power of ten, at least as large as asked. */
function tickStep(least: number): number {
  const power = Number(`1e${Math.floor(Math.log10(least))}`);
  return power * (least / power <= 1 ? 1 : least / power <= 2 ? 2 : least / power <= 5 ? 5 : 10);
}

/** The ticks of an axis with their words. */
export function ticksOf({ from, to, step }: Axis): { readonly value: number; readonly label: string }[] {
  const decimals = Math.max(0, Math.ceil(-Math.log10(step) - 1e-9));
  const first = Math.ceil(from / step - 1e-9);
  const count = Math.floor(to / step + 1e-9) - first + 1;
  return Array.from({ length: count }, (_, i) => {
    const value = (first + i) * step;
    return { value, label: (Math.abs(value) < step / 2 ? 0 : value).toFixed(decimals) };
  });
}
