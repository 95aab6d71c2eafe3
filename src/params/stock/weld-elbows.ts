import { PIPES, type PipeSize } from './pipe-sizes.js';

export const ELBOW_RADII = ['long', 'short'] as const;
export type ElbowRadius = (typeof ELBOW_RADII)[number];

export const ELBOW_ANGLES = [45, 90, 180] as const;
/** Degrees. */
export type ElbowAngle = (typeof ELBOW_ANGLES)[number];

/** Butt-weld elbows of one pipe size, mm. */
export interface ElbowSizes {
  /** Centre to end of a 90 degree elbow, A of the standard: its centreline radius. */
  readonly long90: number;
  readonly short90: number;
  /** Centre to end of a 45 degree elbow of long radius, B. */
  readonly long45: number;
  /** Centre to centre of a 180 degree return, O. */
  readonly long180: number;
  readonly short180: number;
}

const sizes = (long90: number, long45: number, short90: number, long180: number, short180: number): ElbowSizes => ({
  long90,
  long45,
  short90,
  long180,
  short180,
});

/** ASME B16.9. */
export const ELBOWS: Readonly<Record<PipeSize, ElbowSizes>> = {
  '1': sizes(38.1, 22.4, 25.4, 76, 51),
  '1 1/4': sizes(47.8, 25.4, 31.8, 95, 64),
  '1 1/2': sizes(57.2, 28.4, 38.1, 114, 76),
  '2': sizes(76.2, 35.1, 50.8, 152, 102),
  '2 1/2': sizes(95.2, 44.4, 63.5, 190, 127),
  '3': sizes(114.3, 50.8, 76.2, 229, 152),
};

/** A weld elbow as bent stock: mm and degrees. */
export interface WeldElbow {
  readonly od: number;
  readonly clr: number;
  readonly angle: ElbowAngle;
  /** Straight on each end. */
  readonly leg: number;
}

/**
 * An elbow of ASME B16.9 as bent stock, mm; null where the standard has none: there is no 45 degree elbow of short radius. A 45
 * degree elbow is longer than its radius alone makes it, B > R tan(22.5 deg): the excess is taken for a straight on each end. A
 * return has the radius of the 90 degree elbow; the standard's O is twice that, rounded.
 */
export function weldElbow(nps: PipeSize, radius: ElbowRadius, angle: ElbowAngle): WeldElbow | null {
  const size = ELBOWS[nps];
  const clr = radius === 'long' ? size.long90 : size.short90;
  const { od } = PIPES[nps];
  if (angle !== 45) return { od, clr, angle, leg: 0 };
  if (radius === 'short') return null;
  return { od, clr, angle, leg: size.long45 - clr * Math.tan(Math.PI / 8) };
}
