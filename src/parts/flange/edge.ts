import { outlineToOutline } from '../../geometry/outline/distance.js';
import type { Outline } from '../../geometry/outline/outline.js';
import { roundOuterCorners } from '../../geometry/outline/round.js';
import { smoothOutline } from '../../geometry/outline/smooth.js';
import { sharpestTurn } from '../../geometry/outline/turn.js';
import { validateOutline } from '../../geometry/outline/valid.js';
import { JOIN_TOLERANCE } from '../../geometry/tolerance.js';
import { type FlangeCore, grownHole, type PlateShape } from './core.js';
import { onePiece } from './plate.js';

/** Shortest side a cutter is asked to follow, mm: below it controllers stutter (common practice, no source). */
export const LEAST_SIDE = 0.05;

/** Largest change of direction allowed between neighbouring sides, rad. */
const MOST_TURN = 1e-6;

/** The outer edge, windows in it counter-clockwise, and what was given on top of the asked widths and radius to reach them, mm. */
export interface FlangeEdge {
  readonly outline: Outline;
  readonly windows: readonly Outline[];
  readonly extra: number;
}

/** Sides shorter than this are smoothed away, mm; what is left after a kerf offset is then still long enough to cut. */
const SMOOTHED_SIDE = 0.1;

/** Steps tried, mm: smoothing may take a trifle off, which a wider edge and fillet give back. */
const EXTRAS = [0, 0.01, 0.05, 0.1, 0.2, 0.4, 0.8];

/**
 * Outer edge of a flange whose plate has a given shape; inner corners are filleted, so the edge is tangent all round. It keeps at
 * least the asked metal round every opening and hole. `acceptable` may refuse an edge for a reason of its own. Throws Error when
 * no edge comes out clean.
 */
export function flangeEdge(
  core: FlangeCore,
  acceptable: (edge: FlangeEdge) => void = () => {},
  shape: PlateShape = onePiece,
): FlangeEdge {
  let failure = '';
  for (const extra of EXTRAS) {
    try {
      const [rough, ...open] = shape(core, extra);
      const outline = sound(blunt(rough!, core.fillet > 0), core.fillet > 0);
      const windows = open.map((w) => sound(w, core.fillet > 0));
      refuseThinEdge(core, [outline, ...windows]);
      const edge = { outline, windows, extra };
      acceptable(edge);
      return edge;
    } catch (error) {
      failure = (error as Error).message;
    }
  }
  throw new Error(`no clean outer edge was found for the flange: ${failure}`);
}

/** Where two fillets meet in a point of metal, by a turn above the first, rad, the point is rounded to the second, mm. */
const POINT = 1e-3;
const TIP = 1;

/** A tangent edge without points: a fillet that just does not pass between two pads leaves one on either. */
const blunt = (rough: Outline, tangent: boolean): Outline =>
  tangent && sharpestTurn(rough) > POINT ? roundOuterCorners(rough, TIP) : rough;

/** The outline without short sides; throws when it is not sound, or not tangent where it should be. */
function sound(rough: Outline, tangent: boolean): Outline {
  const outline = tangent ? smoothOutline(rough, SMOOTHED_SIDE) : rough;
  validateOutline(outline, { leastSide: LEAST_SIDE });
  const turn = sharpestTurn(outline);
  if (tangent && turn > MOST_TURN) throw new Error(`the edge turns by ${turn} rad at a corner`);
  return outline;
}

/** Throws unless the edges keep the asked metal round every opening and hole. */
function refuseThinEdge(core: FlangeCore, edges: readonly Outline[]): void {
  const refuse = (outline: Outline, asked: number): void => {
    const found = Math.min(...edges.map((e) => outlineToOutline(outline, e).distance));
    if (found < asked - JOIN_TOLERANCE) throw new Error(`the edge leaves ${found} mm where ${asked} mm are asked`);
  };
  for (const o of core.openings) refuse(o.outline, core.portEdge);
  for (const h of core.holes) refuse(grownHole(h, 0), core.holeEdge);
}
