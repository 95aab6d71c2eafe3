import { directionFrom, type Frame, pointFrom } from '../frame.js';
import { cross } from '../vec3.js';

/**
 * Radius, mm, of the circle the inlets' centres stand on, for tubes of outside diameter `od` mm with `gap` mm between
 * neighbours at the inlet plane: neighbouring centres are od + gap apart, so radius = (od + gap) / (2 sin(pi / count)).
 * 0 for a single inlet. Throws RangeError unless count is a whole number from 1.
 */
export function ringRadius(count: number, od: number, gap: number): number {
  checkCount(count);
  return count === 1 ? 0 : (od + gap) / (2 * Math.sin(Math.PI / count));
}

/**
 * World frames of a collector's inlets, in order from inlet 1. Inlet i stands in the inlet plane (z = 0 of the collector's
 * frame) at angle 2 pi (i - 1) / count about the collector's z, counted from its x towards its y, `radius` mm from the axis.
 * Its z is the way of the gas, tilted inwards by `halfAngle` rad; its y runs round the ring (towards the next inlet), its x
 * points outwards. A single inlet is the collector's own frame: on the axis, without tilt.
 * Throws RangeError unless count is a whole number from 1.
 */
export function inletFrames(frame: Frame, count: number, radius: number, halfAngle: number): Frame[] {
  checkCount(count);
  if (count === 1) return [frame];
  const inwards = Math.sin(halfAngle);
  const ahead = Math.cos(halfAngle);
  return Array.from({ length: count }, (_, i) => {
    const [c, s] = cosSinOfTurn(i, count);
    const z = directionFrom(frame, [-inwards * c, -inwards * s, ahead]);
    const y = directionFrom(frame, [-s, c, 0]);
    return { origin: pointFrom(frame, [radius * c, radius * s, 0]), x: cross(y, z), y, z };
  });
}

/** Cosine and sine of part / count of a full turn, exact at every quarter turn. */
function cosSinOfTurn(part: number, count: number): readonly [cos: number, sin: number] {
  if ((4 * part) % count === 0) {
    const quarters = (4 * part) / count;
    return [[1, 0, -1, 0][quarters % 4]!, [0, 1, 0, -1][quarters % 4]!];
  }
  const a = (2 * Math.PI * part) / count;
  return [Math.cos(a), Math.sin(a)];
}

function checkCount(count: number): void {
  if (!(Number.isInteger(count) && count >= 1)) throw new RangeError(`a collector has 1 inlet or more, not ${count}`);
}
