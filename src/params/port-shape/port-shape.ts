import { cosSinDegrees } from '../../geometry/angle.js';
import type { Outline } from '../../geometry/outline.js';
import { rotateOutline } from '../../geometry/outline-transform.js';
import { LENGTH_TOLERANCE } from '../../geometry/tolerance.js';
import { DEFAULTS } from '../defaults.js';
import { degreesField } from '../schema/number-field.js';

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

/** A radius that misses its largest value by rounding only is that value, so that no side of 1e-15 mm is left. */
export const snapTo = (radius: number, largest: number): number =>
  Math.abs(radius - largest) < LENGTH_TOLERANCE ? largest : radius;

/** ` turned 15 degrees`, or nothing. */
export const turnWords = (degrees: number): string => (degrees === 0 ? '' : ` turned ${degrees} degrees`);
