/** What an open end adds to a pipe for long waves, over its radius: H. Levine and J. Schwinger, Phys. Rev. 73, 383 (1948). */
const UNFLANGED = 0.6133;

/** The same for an end in a wide flat flange: the limit for long waves, from memory; tables round it to 0.82. */
const FLANGED = 0.8217;

/** Length that an open end adds to a pipe of a radius for long waves, both in the same unit. */
export const endCorrection = (radius: number, flanged = false): number => (flanged ? FLANGED : UNFLANGED) * radius;
