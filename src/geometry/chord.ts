import { CHORD_ERROR } from './tolerance.js';

/**
 * Number of equal chords round a full circle of `radius` mm whose sagitta r (1 - cos(pi / n)) is at most `error` mm:
 * a multiple of 4, at least 12. Throws RangeError unless both are positive.
 */
export function chordsRound(radius: number, error: number = CHORD_ERROR): number {
  return Math.max(12, 4 * Math.ceil(Math.ceil((2 * Math.PI) / chordAngle(radius, error) - 1e-9) / 4));
}

/** Number of equal chords along an arc of `radius` mm through `angle` rad with a sagitta of at most `error` mm; at least 1. */
export function chordsAlong(radius: number, angle: number, error: number = CHORD_ERROR): number {
  return Math.max(1, Math.ceil(Math.abs(angle) / chordAngle(radius, error) - 1e-9));
}

/** Largest angle, rad, one chord may span: 2 acos(1 - error / radius), half a turn at most. */
function chordAngle(radius: number, error: number): number {
  if (!(radius > 0 && error > 0)) throw new RangeError(`no chords for radius ${radius} mm and error ${error} mm`);
  return error >= radius ? Math.PI : 2 * Math.acos(1 - error / radius);
}
