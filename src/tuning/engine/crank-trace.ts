/** Degrees of a cycle. */
export const CYCLE = 720;

/** A value at every whole crank degree of a cycle, filled as steps pass. */
export interface CrankTrace {
  readonly values: Float64Array;
  last: number;
}

export const crankTrace = (): CrankTrace => ({ values: new Float64Array(CYCLE), last: Number.NaN });

/** Fills the whole degrees after `from` up to `to` (not wrapped, `to` above `from`) by a straight line from the last value to this one. */
export function fillTrace(trace: CrankTrace, from: number, to: number, value: number): void {
  const before = Number.isNaN(trace.last) ? value : trace.last;
  for (let degree = Math.floor(from) + 1; degree <= to; degree++) {
    const t = (degree - from) / (to - from);
    trace.values[((degree % CYCLE) + CYCLE) % CYCLE] = before + t * (value - before);
  }
  trace.last = value;
}

/** Mean of the whole degrees from one to another, both included; null when there are none. */
export function meanOver(values: Float64Array, from: number, to: number): number | null {
  let [sum, count] = [0, 0];
  for (let d = Math.ceil(from); d <= to; d++) {
    sum += values[((d % CYCLE) + CYCLE) % CYCLE]!;
    count++;
  }
  return count > 0 ? sum / count : null;
}

/** Where a trace is highest or lowest between two angles: the whole degree, and the value. */
export function extremeOver(
  values: Float64Array,
  from: number,
  to: number,
  which: 'highest' | 'lowest',
): { at: number; value: number } {
  const sign = which === 'highest' ? 1 : -1;
  let best = { at: Math.ceil(from), value: -sign * Number.POSITIVE_INFINITY };
  for (let d = Math.ceil(from); d <= to; d++) {
    const value = values[((d % CYCLE) + CYCLE) % CYCLE]!;
    if (sign * value > sign * best.value) best = { at: d, value };
  }
  return best;
}

/** Root mean square of the difference of two traces. */
export function traceChange(a: Float64Array, b: Float64Array): number {
  const sum = a.reduce((s, v, i) => s + (v - b[i]!) ** 2, 0);
  return Math.sqrt(sum / a.length);
}
