import type { Outline } from '../geometry/outline.js';
import { outlineToOutline, pointToOutline } from '../geometry/outline-distance.js';
import { filletInnerCorners } from '../geometry/outline-fillet.js';
import { hullOf } from '../geometry/outline-hull.js';
import { circleOutline } from '../geometry/outline-make.js';
import { signedArea } from '../geometry/outline-measure.js';
import { offsetOutline } from '../geometry/outline-offset.js';
import { smoothOutline } from '../geometry/outline-smooth.js';
import { sharpestTurn } from '../geometry/outline-turn.js';
import { unionOf } from '../geometry/outline-union.js';
import { validateOutline } from '../geometry/outline-valid.js';
import { JOIN_TOLERANCE } from '../geometry/tolerance.js';
import { distance2, type Vec2 } from '../geometry/vec2.js';
import { nearestOnSpine, type SpineLink, spineOf } from './spine.js';

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

/** Sides shorter than this are smoothed away, mm; what is left after a kerf offset is then still long enough to cut. */
const SMOOTHED_SIDE = 0.1;

/** Steps tried, mm: smoothing may take a trifle off, which a wider edge and fillet give back. */
const EXTRAS = [0, 0.01, 0.05, 0.1, 0.2, 0.4, 0.8];

/**
 * Outer edge of a flange: a strip along the line of ports, as high as the ports with their edge, and an ear for each bolt that
 * widens towards the strip or takes in the port at its end; inner corners are filleted, so the edge is tangent all round. It keeps at least the asked metal
 * round every opening and hole. `acceptable` may refuse an edge for a reason of its own. Throws Error when no edge comes out clean.
 */
export function flangeEdge(core: FlangeCore, acceptable: (edge: Outline) => void = () => {}): FlangeEdge {
  let failure = '';
  for (const extra of EXTRAS) {
    try {
      const rough = edgeWith(core, extra);
      const outline = core.fillet > 0 ? smoothOutline(rough, SMOOTHED_SIDE) : rough;
      validateOutline(outline, { leastSide: LEAST_SIDE });
      const turn = sharpestTurn(outline);
      if (core.fillet > 0 && turn > MOST_TURN) throw new Error(`the edge turns by ${turn} rad at a corner`);
      refuseThinEdge(core, outline);
      acceptable(outline);
      return { outline, extra };
    } catch (error) {
      failure = (error as Error).message;
    }
  }
  throw new Error(`no clean outer edge was found for the flange: ${failure}`);
}

/** Throws unless the edge keeps the asked metal round every opening and hole. */
function refuseThinEdge(core: FlangeCore, edge: Outline): void {
  const refuse = (found: number, asked: number): void => {
    if (found < asked - JOIN_TOLERANCE) throw new Error(`the edge leaves ${found} mm where ${asked} mm are asked`);
  };
  for (const o of core.openings) refuse(outlineToOutline(o.outline, edge).distance, core.portEdge);
  for (const b of core.bolts) refuse(pointToOutline(b.at, edge).distance - b.diameter / 2, core.boltEdge);
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
    const end = centres.findIndex((c, i) => isEnd(links, i) && distance2(c, root) < JOIN_TOLERANCE);
    return hullOf([boss, end >= 0 ? pads[end]! : widestDisc(root, strip)]);
  });
  const plate = joined([strip, ...ears]);
  return core.fillet > 0 ? filletInnerCorners(plate, core.fillet + extra) : plate;
}

/** True for a port with at most one neighbour: an ear beside it takes in the whole of its pad. */
const isEnd = (links: readonly SpineLink[], port: number): boolean =>
  links.filter((l) => l.a === port || l.b === port).length <= 1;

/** The largest disc about a point inside an outline. */
const widestDisc = (at: Vec2, outline: Outline): Outline => circleOutline(at, 2 * pointToOutline(at, outline).distance);

/** The outer edge of outlines that hang together. */
function joined(outlines: readonly Outline[]): Outline {
  const outer = unionOf(outlines).filter((o) => signedArea(o) > 0);
  if (outer.length !== 1) throw new Error(`the flange falls into ${outer.length} pieces`);
  return outer[0]!;
}
