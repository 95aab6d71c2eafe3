/** What an open end adds to a pipe for long waves, over its radius: H. Levine and J. Schwinger, Phys. Rev. 73, 383 (1948). */
export const UNFLANGED = 0.6133;

/** The same for an end in a wide flat flange: the limit for long waves, from memory; tables round it to 0.82. */
export const FLANGED = 0.8217;

/** Length, mm, that an open end adds to a pipe of a radius, mm, for long waves. */
export const endCorrection = (radius: number, flanged = false): number => (flanged ? FLANGED : UNFLANGED) * radius;

/**
 * Length, mm, that an unflanged end adds for waves of a wave number, 1/mm: the fit of Dalmont and others to Levine and Schwinger,
 * 0.6133 [(1 + 0.044 (ka)^2) / (1 + 0.19 (ka)^2) - 0.02 sin^2(2 ka)]. Throws RangeError beyond ka = 1.5, where it is not given.
 */
export function endCorrectionAt(radius: number, waveNumber: number): number {
  const ka = waveNumber * radius;
  if (!(ka >= 0 && ka <= 1.5)) throw new RangeError(`the end correction is given for ka from 0 to 1.5, not ${ka}`);
  const square = ka * ka;
  return UNFLANGED * radius * ((1 + 0.044 * square) / (1 + 0.19 * square) - 0.02 * Math.sin(2 * ka) ** 2);
}
