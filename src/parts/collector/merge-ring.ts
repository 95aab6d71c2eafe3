import { integrate } from '../../geometry/integrate.js';
import { holeArea, type RingSection } from '../../geometry/merge/section.js';

/** Where the tubes of a merge stand and how they lean: mm and rad. */
export interface MergeRing {
  readonly inlets: number;
  readonly ringRadius: number;
  readonly mergeHalfAngle: number;
}

/** The tubes' bores, or with `radius` any tubes about the same axes, in the plane `z` mm behind the inlet plane. */
export function ringAt(g: MergeRing, z: number, radius: number): RingSection {
  const offset = g.inlets === 1 ? 0 : g.ringRadius - z * Math.tan(g.mergeHalfAngle);
  return { count: g.inlets, offset, tilt: g.mergeHalfAngle, radius };
}

/** Where tubes of a radius about the inlets' axes first touch their neighbours, mm behind the inlet plane; infinite for parallel ones. */
export function touchingAt(g: MergeRing, radius: number): number {
  const half = Math.PI / g.inlets;
  const reach = radius * Math.hypot(Math.sin(half) / Math.cos(g.mergeHalfAngle), Math.cos(half));
  return (g.ringRadius - reach / Math.sin(half)) / Math.tan(g.mergeHalfAngle);
}

/** Where tubes of a radius about the inlets' axes meet on the collector's axis, mm behind the inlet plane; infinite for parallel ones. */
export const closedAt = (g: MergeRing, radius: number): number =>
  (g.ringRadius - radius / Math.cos(g.mergeHalfAngle)) / Math.tan(g.mergeHalfAngle);

/** Volume of the spike between the tubes' outsides, from the inlet plane to where they meet on the axis, mm3. By Simpson's rule on closed-form sections. */
export function spikeVolume(g: MergeRing, outside: number): number {
  const area = (z: number): number => holeArea(ringAt(g, z, outside));
  const ends = [0, Math.max(0, touchingAt(g, outside)), Math.max(0, closedAt(g, outside))];
  return ends.slice(1).reduce((sum, to, i) => sum + integrate(area, ends[i]!, to, 2000), 0);
}

/** Radius of the circle of the same area, mm. */
export const equalRadius = (area: number): number => Math.sqrt(area / Math.PI);
