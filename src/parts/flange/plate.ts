import { pointToOutline } from '../../geometry/outline/distance.js';
import { filletInnerCorners } from '../../geometry/outline/fillet.js';
import { hullOf } from '../../geometry/outline/hull.js';
import { circleOutline } from '../../geometry/outline/make.js';
import { signedArea } from '../../geometry/outline/measure.js';
import type { Outline } from '../../geometry/outline/outline.js';
import { unionOf } from '../../geometry/outline/union.js';
import { JOIN_TOLERANCE } from '../../geometry/tolerance.js';
import { distance2, type Vec2 } from '../../geometry/vec2.js';
import { bossOf, type FlangeCore, padsOf } from './core.js';
import { nearestOnSpine, type SpineLink, spineOf } from './spine.js';

/**
 * One plate: a strip along the line of ports, as high as the ports with their edge, and an ear for each hole that widens towards the
 * strip or takes in the port at its end.
 */
export function onePiece(core: FlangeCore, extra: number): readonly Outline[] {
  const pads = padsOf(core, extra);
  const centres = core.openings.map((o) => o.at);
  const links = spineOf(centres);
  const strips = links.length === 0 ? pads : links.map(({ a, b }) => hullOf([pads[a]!, pads[b]!]));
  const strip = joined(strips);
  const ears = core.holes.map((hole) => {
    const boss = bossOf(core, hole, extra);
    const root = nearestOnSpine(centres, links, hole.at);
    const end = centres.findIndex((c, i) => isEnd(links, i) && distance2(c, root) < JOIN_TOLERANCE);
    return hullOf([boss, end >= 0 ? pads[end]! : widestDisc(root, strip)]);
  });
  const plate = joined([strip, ...ears]);
  return [core.fillet > 0 ? filletInnerCorners(plate, core.fillet + extra) : plate];
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
