/** One line of the verification table: something published or exact, and what our calculation makes of it. */
export interface VerificationRow {
  readonly name: string;
  /** Where the expected value comes from. */
  readonly source: string;
  /** '' for a pure number. */
  readonly unit: string;
  /** Whether the error is taken over the expected value or as it is. */
  readonly error: 'relative' | 'absolute';
  /** Largest error allowed. */
  readonly limit: number;
  readonly measure: () => { readonly expected: number; readonly got: number };
}

/** A row once calculated. */
export interface VerifiedRow extends VerificationRow {
  readonly expected: number;
  readonly got: number;
  readonly off: number;
  readonly held: boolean;
}

/** Calculates a row. */
export function verified(row: VerificationRow): VerifiedRow {
  const { expected, got } = row.measure();
  const off = Math.abs(got - expected) / (row.error === 'relative' ? Math.abs(expected) : 1);
  return { ...row, expected, got, off, held: off <= row.limit };
}
