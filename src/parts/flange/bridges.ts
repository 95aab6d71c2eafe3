import { outlineContains } from '../../geometry/outline/contains.js';
import { outlineToOutline } from '../../geometry/outline/distance.js';
import { filletInnerCorners, filletRegion } from '../../geometry/outline/fillet.js';
import { hullOf } from '../../geometry/outline/hull.js';
import { circleOutline } from '../../geometry/outline/make.js';
import { signedArea } from '../../geometry/outline/measure.js';
import { offsetOutlines } from '../../geometry/outline/offset.js';
import type { Outline } from '../../geometry/outline/outline.js';
import { reverseOutline } from '../../geometry/outline/transform.js';
import { sharpestTurn } from '../../geometry/outline/turn.js';
import { unionOf } from '../../geometry/outline/union.js';
import { add2, cross2, distance2, dot2, scale2, sub2, unit2, type Vec2 } from '../../geometry/vec2.js';
import { bossOf, type FlangeCore, type PlateShape, padsOf } from './core.js';
import { spineOf } from './spine.js';

/** Windows that do not take a disc of this radius, mm, are filled: they save nothing and cut badly. */
const LEAST_WINDOW = 3;

/** Where two fillets of a window meet in a point of metal, by a turn above the first, rad, the point is rounded to the second, mm. */
const CORNER = 1e-3;
const TIP = 1.5;

/** Part of the way between two ports at either end in which a hole belongs to the port there. */
const AT_PORT = 0.12;

/** A hole further than this part of the ports' distance from their line does not lie between them. */
const BESIDE = 0.75;

/** A bar from one pad to the next through holes. */
interface Run {
  readonly points: readonly Vec2[];
  /** Places in the list of holes. */
  readonly holes: readonly number[];
}

/**
 * A pad for each port, joined by bars of a width, mm: along the holes that lie between two ports, above and below their line; from
 * middle to middle where there are none. Holes beside one port are ears of its pad.
 */
export function bridged(width: number): PlateShape {
  return (core, extra) => {
    const pads = padsOf(core, extra);
    const centres = core.openings.map((o) => o.at);
    const runs = spineOf(centres).flatMap(({ a, b }) =>
      runsBetween(core, { at: centres[a]!, pad: pads[a]! }, { at: centres[b]!, pad: pads[b]! }, width),
    );
    const carried = new Set(runs.flatMap((r) => r.holes));
    const ears = core.holes.map((hole, i) => {
      const boss = bossOf(core, hole, extra);
      return carried.has(i) ? boss : hullOf([boss, pads[nearest(centres, hole.at)]!]);
    });
    const bars = runs.flatMap(({ points }) =>
      points.slice(1).map((p, i) => hullOf([circleOutline(points[i]!, width), circleOutline(p, width)])),
    );
    const loops = filletRegion(unionOf([...pads, ...ears, ...bars]), core.fillet > 0 ? core.fillet + extra : 0);
    const outer = loops.filter((o) => signedArea(o) > 0);
    if (outer.length !== 1) throw new Error(`the flange falls into ${outer.length} pieces`);
    const windows = loops.filter((o) => signedArea(o) < 0).map(reverseOutline);
    return [outer[0]!, ...soundWindows(windows, outer[0]!, width / 2)];
  };
}

interface Pad {
  readonly at: Vec2;
  readonly pad: Outline;
}

/** The bars between two neighbouring pads: one for each side that has holes, or one straight across. */
function runsBetween(core: FlangeCore, a: Pad, b: Pad, width: number): Run[] {
  const pitch = distance2(a.at, b.at);
  const along = unit2(sub2(b.at, a.at));
  const left: Vec2 = [-along[1], along[0]];
  const between = core.holes.flatMap((hole, index) => {
    const to = sub2(hole.at, a.at);
    const [s, h] = [dot2(to, along), cross2(along, to)];
    const inside = s > AT_PORT * pitch && s < (1 - AT_PORT) * pitch && Math.abs(h) < BESIDE * pitch;
    return inside ? [{ index, at: hole.at, s, h }] : [];
  });
  const sides = [between.filter((x) => x.h >= 0), between.filter((x) => x.h < 0)].filter((x) => x.length > 0);
  if (sides.length === 0) return [{ points: [a.at, b.at], holes: [] }];
  return sides.map((side) => {
    const row = [...side].sort((x, y) => x.s - y.s);
    const seat = ({ at, pad }: Pad, h: number): Vec2 => {
      const room = Math.max(reach(pad, at, scale2(left, Math.sign(h))) - width / 2, 0);
      return add2(at, scale2(left, Math.sign(h) * Math.min(Math.abs(h), room)));
    };
    return {
      points: [seat(a, row[0]!.h), ...row.map((x) => x.at), seat(b, row[row.length - 1]!.h)],
      holes: row.map((x) => x.index),
    };
  });
}

/** How far a convex pad reaches from a point in it along a direction, mm, by halving. */
function reach(pad: Outline, from: Vec2, way: Vec2): number {
  let [inside, outside] = [0, 500];
  for (let i = 0; i < 40; i++) {
    const middle = (inside + outside) / 2;
    if (outlineContains(pad, add2(from, scale2(way, middle)))) inside = middle;
    else outside = middle;
  }
  return inside;
}

const nearest = (points: readonly Vec2[], to: Vec2): number =>
  points.reduce((best, p, i) => (distance2(p, to) < distance2(points[best]!, to) - 1e-9 ? i : best), 0);

/** The windows worth cutting that leave at least a tie, mm, to the outer edge and to each other; the rest are filled. */
function soundWindows(windows: readonly Outline[], outer: Outline, tie: number): Outline[] {
  const kept: Outline[] = [];
  for (const sharp of windows.filter(isWide)) {
    const w = sharpestTurn(sharp) > CORNER ? filletInnerCorners(sharp, TIP) : sharp;
    if ([outer, ...kept].every((o) => outlineToOutline(w, o).distance >= tie)) kept.push(w);
  }
  return kept;
}

const isWide = (window: Outline): boolean => offsetOutlines([window], -LEAST_WINDOW).length === 1;
