import { mergeEnd } from '../../geometry/merge/end.js';
import { coveredArea } from '../../geometry/merge/section.js';

/** A merge of tubes, mm and rad. */
export interface MergeOf {
  readonly count: number;
  readonly od: number;
  readonly wall: number;
  readonly gap: number;
  readonly halfAngle: number;
}

/** Radius, mm, of the circle with the area of the joined bores where the merge ends and the cone begins. */
export function mergeEndRadius({ count, od, wall, gap, halfAngle }: MergeOf): number {
  const bore = od / 2 - wall;
  const tilt = count === 1 ? 0 : halfAngle;
  const { radius } = mergeEnd(count, od, bore, gap, tilt);
  return Math.sqrt(coveredArea({ count, offset: radius, tilt, radius: bore }) / Math.PI);
}
