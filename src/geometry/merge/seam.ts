import { integrate } from '../integrate.js';
import type { RingSection } from './section.js';

/** How many seams run along the outside of a merge: two where two tubes meet, which can be reached from both sides; else one a pair. */
const seamsOf = (count: number): number => Math.max(count, 2);

/** Strips of a seam's length: its ellipse is smooth, so these give it to better than 1e-9 of it. */
const STRIPS = 200;

/**
 * Length of all seams along the outside of a merge, mm: where each tube's skin meets its neighbour's in the plane half-way between,
 * from where they touch to the plane `end` mm behind the one the ring is given in. A plane cuts a cylinder in an ellipse: with psi
 * round the tube from the lowest point of that, the height is z0 - H cos(psi), and the arc between is integrated. 0 for one tube,
 * for parallel tubes, and where they touch no sooner. The arms between the tubes on the inside, out of a torch's reach, do not count.
 */
export function mergeSeams({ count, offset, tilt, radius }: RingSection, end: number): number {
  if (count < 2 || tilt <= 0) return 0;
  const [s, c] = [Math.sin(tilt), Math.cos(tilt)];
  const half = Math.PI / count;
  const lean = Math.cos(half) / Math.sin(half);
  const [across, aside] = [radius / s, (-radius * lean * c) / s];
  const [middle, swing] = [(offset * c) / s, Math.hypot(across, aside)];
  const rise = (middle - end) / swing;
  if (rise >= 1) return 0;
  const last = Math.acos(Math.max(-1, rise));
  const lowest = Math.atan2(aside, across) + Math.PI;
  /** How fast the point moves round the tube: in the plane's own directions, square to the axis and along it. */
  const speed = (psi: number): number => {
    const phi = lowest + psi;
    const outwards = (radius * Math.cos(phi)) / Math.sin(half);
    // in the plane the distance from the axis is y / sin(half), y = radius sin(phi)
    return Math.hypot(outwards, swing * Math.sin(psi));
  };
  const distanceAt = (psi: number): number => (radius * Math.sin(lowest + psi)) / Math.sin(half);
  const way = distanceAt(last) >= distanceAt(-last) ? 1 : -1;
  return seamsOf(count) * integrate((psi) => speed(way * psi), 0, last, STRIPS);
}
