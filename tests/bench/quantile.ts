/** The value below which a share of the values lies, between neighbours in proportion. */
export function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  const at = share * (sorted.length - 1);
  const below = sorted[Math.floor(at)]!;
  return below + (sorted[Math.ceil(at)]! - below) * (at % 1);
}

export const median = (values: readonly number[]): number => quantile(values, 0.5);
