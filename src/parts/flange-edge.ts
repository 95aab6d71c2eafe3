import type { Outline } from '../geometry/outline.js';
import { pointToOutline } from '../geometry/outline-distance.js';
import { filletInnerCorners } from '../geometry/outline-fillet.js';
import { hullOf } from '../geometry/outline-hull.js';
import { circleOutline } from '../geometry/outline-make.js';
import { signedArea } from '../geometry/outline-measure.js';
import { offsetOutline } from '../geometry/outline-offset.js';
import { unionOf } from '../geometry/outline-union.js';
import { sharpestTurn, validateOutline } from '../geometry/outline-valid.js';
import type { Vec2 } from '../geometry/vec2.js';
import { nearestOnSpine, spineOf } from './spine.js';

/** Shortest side a cutter is asked to follow, mm: below it controllers stutter (common practice, no source). */
export const LEAST_SIDE = 0.05;

/** Largest change of direction allowed between neighbouring sides, rad. */
export const MOST_TURN = 1e-6;

/** What the outer edge goes round. */
export interface FlangeCore {
  /** Openings on the head face and their centres, mm. */
  readonly openings: readonly { readonly at: Vec2; readonly outline: Outline }[];
  readonly bolts: readonly { readonly at: Vec2; readonly diameter: number }[];
  /** Least metal from an opening and from a bolt hole to the outside, mm. */
  readonly portEdge: number;
  readonly boltEdge: number;
  /** Radius of inner corners, mm. */
  readonly fillet: number;
}

/** The outer edge and what was given on top of the asked widths and radius to reach it, mm. */
export interface FlangeEdge {
  readonly outline: Outline;
  readonly extra: number;
}

/** Steps tried when a fillet leaves a side too short to cut, mm: each widens the edge and the fillets by a trifle. */
const EXTRAS = [0, 0.05, 0.11, 0.18, 0.26, 0.35, 0.45, 0.56, 0.68, 0.81, 0.95, 1.1];

/**
 * Outer edge of a flange: a strip along the line of ports, as high as the ports with their edge, and an ear for each bolt that
 * widens towards the strip; inner corners are filleted, so the edge is tangent all round. It keeps at least the asked metal
 * round every opening and hole. `acceptable` may refuse an edge for a reason of its own. Throws Error when no edge comes out clean.
 */
export function flangeEdge(core: FlangeCore, acceptable: (edge: Outline) => void = () => {}): FlangeEdge {
  const failures: string[] = [];
  for (const extra of EXTRAS) {
    try {
      const outline = edgeWith(core, extra);
      validateOutline(outline, { leastSide: LEAST_SIDE });
      const turn = sharpestTurn(outline);
      if (core.fillet > 0 && turn > MOST_TURN) throw new Error(`the edge turns by ${turn} rad at a corner`);
      acceptable(outline);
      return { outline, extra };
    } catch (error) {
      failures.push((error as Error).message);
    }
  }
  throw new Error(`no clean outer edge was found for the flange: ${[...new Set(failures)].join('; ')}`);
}

function edgeWith(core: FlangeCore, extra: number): Outline {
  const pads = core.openings.map((o) => offsetOutline(o.outline, core.portEdge + extra));
  const centres = core.openings.map((o) => o.at);
  const links = spineOf(centres);
  const strips = links.length === 0 ? pads : links.map(({ a, b }) => hullOf([pads[a]!, pads[b]!]));
  const strip = joined(strips);
  const ears = core.bolts.map((bolt) => {
    const boss = circleOutline(bolt.at, bolt.diameter + 2 * (core.boltEdge + extra));
    const root = nearestOnSpine(centres, links, bolt.at);
    const reach = pointToOutline(root, strip).distance;
    return hullOf([boss, circleOutline(root, 2 * reach)]);
  });
  const plate = joined([strip, ...ears]);
  return core.fillet > 0 ? filletInnerCorners(plate, core.fillet + extra) : plate;
}

/** The outer edge of outlines that hang together. */
function joined(outlines: readonly Outline[]): Outline {
  const outer = unionOf(outlines).filter((o) => signedArea(o) > 0);
  if (outer.length !== 1) throw new Error(`the flange falls into ${outer.length} pieces`);
  return outer[0]!;
}
