import { mergeSeams } from '../../geometry/merge/seam.js';
import { hullOfRing } from '../../geometry/merge/section.js';
import type { CollectorGeometry } from './merge-geometry.js';
import { ringAt } from './merge-ring.js';

/** Welds of a merge, mm: along its tubes, and round its end onto the cone. */
export interface MergeWelds {
  readonly seams: number;
  readonly round: number;
}

/** The welds that make tubes a merge, at the middle of their walls, as all welds count; none where there is one tube. */
export function mergeWelds(g: CollectorGeometry): MergeWelds {
  if (g.inlets === 1) return { seams: 0, round: 0 };
  const middle = (g.bore + g.outside) / 2;
  return {
    seams: mergeSeams(ringAt(g, 0, middle), g.mergeLength),
    round: hullOfRing(ringAt(g, g.mergeLength, middle)).perimeter,
  };
}
