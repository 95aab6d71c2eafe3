import { signedArea } from '../outline/measure.js';
import type { Outline } from '../outline/outline.js';
import { outlineOfSides } from '../outline/sides.js';
import { reverseOutline } from '../outline/transform.js';
import type { Vec2 } from '../vec2.js';
import { type CutSurface, tubeEnd } from './tube-end.js';
import { alongWithCorners } from './unrolled-edge.js';

/** A branch on a host tube: axes `angle` rad apart (a quarter turn is square) and `offset` mm past each other; host radius in mm. */
export interface Saddle {
  readonly angle: number;
  readonly offset: number;
  readonly hostRadius: number;
}

/**
 * The host as a cut in the branch's frame: z to the host, zero where the axes pass each other; x on the side the host's axis
 * leans to, where the branch is longest; the host's axis passes at +y.
 */
export const hostCut = ({ angle, offset, hostRadius }: Saddle): Extract<CutSurface, { kind: 'round' }> => ({
  kind: 'round',
  point: [0, offset, 0],
  axis: [Math.sin(angle), 0, Math.cos(angle)],
  radius: hostRadius,
  taper: 0,
});

/** The opening of a branch in the unrolled skin of its host. */
export interface SaddleHole {
  /** x round the host from the generator under the crossing of the axes, y along its axis, mm; about the crossing. */
  readonly outline: Outline;
  /** Largest distance from the true curve, mm. */
  readonly deviation: number;
  /** The same curve by the branch's angle, rad. */
  readonly at: (phi: number) => Vec2;
}

/**
 * Where a branch of `radius` mm comes through the skin of its host, unrolled at `paper` mm from the host's axis. x runs
 * right-handed about the host's axis, from the direction that faces the branch. Throws RangeError when the branch does not meet the
 * host all round.
 */
export function saddleHole(saddle: Saddle, radius: number, paper: number, tolerance: number): SaddleHole {
  const end = tubeEnd([hostCut(saddle)], radius);
  const [c, s] = [Math.cos(saddle.angle), Math.sin(saddle.angle)];
  const at = (phi: number): Vec2 => {
    const [x, y, z] = [radius * Math.cos(phi), radius * Math.sin(phi) - saddle.offset, end.height(phi)];
    // Square to the host's axis: towards the branch, and to the left of that about the axis.
    const facing = x * c - z * s;
    return [paper * Math.atan2(y, facing), x * s + z * c];
  };
  const { sides, deviation } = alongWithCorners(at, 0, 2 * Math.PI, end.corners, tolerance);
  const outline = outlineOfSides(sides);
  return { outline: signedArea(outline) > 0 ? outline : reverseOutline(outline), deviation, at };
}
