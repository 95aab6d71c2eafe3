/** Radians from degrees. */
export const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** Degrees from radians. */
export const degrees = (rad: number): number => (rad * 180) / Math.PI;

/** Cosine and sine of an angle in degrees, exact at every quarter turn. */
export function cosSinDegrees(deg: number): readonly [cos: number, sin: number] {
  const turn = ((deg % 360) + 360) % 360;
  if (turn === 0) return [1, 0];
  if (turn === 90) return [0, 1];
  if (turn === 180) return [-1, 0];
  if (turn === 270) return [0, -1];
  return [Math.cos(radians(turn)), Math.sin(radians(turn))];
}

/** The same direction, rad, in (-pi, pi]. */
export function wrapPi(rad: number): number {
  const w = rad - 2 * Math.PI * Math.floor((rad + Math.PI) / (2 * Math.PI));
  return w <= -Math.PI ? w + 2 * Math.PI : w;
}

/** The same direction, rad, from 0 to 2 pi; 2 pi itself only where a turn of less than rounding below zero comes to it. */
export function wrapTwoPi(rad: number): number {
  const w = rad % (2 * Math.PI);
  return w < 0 ? w + 2 * Math.PI : w;
}
