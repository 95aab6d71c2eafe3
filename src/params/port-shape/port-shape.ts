import { cosSinDegrees } from '../../geometry/angle.js';
import type { Outline } from '../../geometry/outline/outline.js';
import { rotateOutline } from '../../geometry/outline/transform.js';
import { JOIN_TOLERANCE } from '../../geometry/tolerance.js';
import { DEFAULTS } from '../defaults.js';
import { degreesField } from '../fields/number-field.js';

/** What every port shape comes to: its outline about the port's centre, counter-clockwise, mm, and its name in words. */
export interface PortShape {
  readonly outline: Outline;
  /** 'oval 44 x 36 mm'. */
  readonly words: string;
}

/** Largest width, height or diameter of a port, mm. */
export const LARGEST_PORT = { max: 300 } as const;

/** The `rotation` field of the shapes that have a way up. */
export const rotationField = () =>
  degreesField('Turns the shape about its centre, counter-clockwise seen from outside the head', -360, 360).default(
    DEFAULTS.port.rotation,
  );

/** The outline turned about the port's centre by degrees; quarter turns are exact. */
export function turned(outline: Outline, degrees: number): Outline {
  return degrees === 0 ? outline : rotateOutline(outline, ...cosSinDegrees(degrees));
}

/** A dimension that misses another by rounding only is the other, so that no side is left shorter than two points of an outline may be apart. */
export const snapTo = (value: number, other: number): number =>
  Math.abs(value - other) < 2 * JOIN_TOLERANCE ? other : value;

/** ` turned 15 degrees`, or nothing. */
export const turnWords = (degrees: number): string => (degrees === 0 ? '' : ` turned ${degrees} degrees`);
