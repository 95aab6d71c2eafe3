/**
 * Outside diameters of ISO 1127 and EN 10220 from 20 to 90 mm, mm: series 1 has all fittings, series 2 some, series 3 few. From
 * memory; 33.7, 35, 38 and 40 were also seen in makers' tables of EN 10220. Any wall goes with them: the plan says which.
 */
export const ISO_DIAMETERS: Readonly<Record<1 | 2 | 3, readonly number[]>> = {
  1: [21.3, 26.9, 33.7, 42.4, 48.3, 60.3, 76.1, 88.9],
  2: [25, 31.8, 32, 38, 40, 51, 57, 63.5, 70],
  3: [35, 44.5, 54],
};

/** All of them, smallest first. */
export const ISO_ALL: readonly number[] = Object.values(ISO_DIAMETERS)
  .flat()
  .sort((a, b) => a - b);
