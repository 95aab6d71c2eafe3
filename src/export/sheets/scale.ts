/** Scales drawings are made to, largest first: those of ISO 5455 and those between that a shop rule reads. */
const SCALES = [
  1,
  1 / 1.5,
  1 / 2,
  1 / 2.5,
  1 / 3,
  1 / 4,
  1 / 5,
  1 / 6,
  1 / 8,
  1 / 10,
  1 / 12,
  1 / 15,
  1 / 20,
  1 / 25,
  1 / 30,
  1 / 50,
  1 / 100,
];

/** The largest scale something fits at. Throws RangeError when it fits at none. */
export function scaleThatFits(fits: (scale: number) => boolean, most = 1): number {
  const found = SCALES.find((k) => k <= most && fits(k));
  if (found === undefined) throw new RangeError('a drawing is too large for a sheet at any scale');
  return found;
}

/** '1:2.5'. */
export const scaleWords = (scale: number): string => `1:${Number((1 / scale).toFixed(2))}`;
