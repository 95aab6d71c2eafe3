/** Of stretches in order, the one that a running length (mm) lies in: the last that begins at or before it, the first where none does. */
export const spanAtRun = <T extends { readonly from: number }>(spans: readonly T[], run: number): T =>
  spans.filter((s) => s.from <= run).at(-1) ?? spans[0]!;
