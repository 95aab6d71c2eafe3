import { outlineContains } from '../../geometry/outline/contains.js';
import { flattenOutline } from '../../geometry/outline/flatten.js';
import { outlineBounds } from '../../geometry/outline/measure.js';
import { difference, intersection, type Solid, trimmed, union } from '../../geometry/solid/solid.js';
import { prism } from '../../geometry/solid/solid-shapes.js';
import type { Vec2 } from '../../geometry/vec2.js';
import type { Vec3 } from '../../geometry/vec3.js';
import type { FlangeRegion } from '../flange/region.js';
import { metalAbout } from './proof-plate.js';

/** A cut across the plate at x with a dovetail tongue of the left piece reaching into the right one; head face, mm. */
export interface DovetailCut {
  readonly x: number;
  readonly y: number;
  /** Length of the tongue, its width at the root, and how much wider it gets on either side. */
  readonly length: number;
  readonly root: number;
  readonly flare: number;
}

/** Tongues tried, largest first, with the metal each wants about it, mm. Our own sizes. */
const TONGUES = [
  { length: 10, root: 12, flare: 3, metal: 4 },
  { length: 8, root: 8, flare: 2, metal: 3 },
  { length: 6, root: 6, flare: 1.5, metal: 2 },
] as const;

/**
 * Cuts between openings that leave no piece longer than the bed, as few as can be; null when a piece would still be too long
 * or no tongue fits.
 */
export function dovetailCuts(region: FlangeRegion, bed: Vec3): readonly DovetailCut[] | null {
  const { from, to } = outlineBounds(region.outer);
  const bedLength = Math.max(bed[0], bed[1]);
  const possible = gapsBetween(region).flatMap((gap) => {
    const cut = cutIn(region, gap);
    return cut === null ? [] : [cut];
  });
  const cuts: DovetailCut[] = [];
  let start = from[0];
  while (to[0] - start > bedLength) {
    const reachable = possible.filter((c) => c.x > start + 1 && c.x + c.length - start <= bedLength);
    const last = reachable[reachable.length - 1];
    if (last === undefined) return null;
    cuts.push(last);
    start = last.x;
  }
  return cuts;
}

/** The plate's pieces from left to right; sockets are wider than tongues by `fit` mm on every side. */
export function splitAt(plate: Solid, cuts: readonly DovetailCut[], thickness: number, fit: number): Solid[] {
  return Array.from({ length: cuts.length + 1 }, (_, i) => {
    const [left, right] = [cuts[i - 1], cuts[i]];
    const fromLeft = left ? trimmed(plate, { point: [left.x, 0, 0], normal: [1, 0, 0] }) : plate;
    const between = right ? trimmed(fromLeft, { point: [right.x, 0, 0], normal: [-1, 0, 0] }) : fromLeft;
    const withTongue = right ? union(between, intersection(plate, tongue(right, thickness, 0))) : between;
    return left ? difference(withTongue, tongue(left, thickness, fit)) : withTongue;
  });
}

function tongue(cut: DovetailCut, thickness: number, grown: number): Solid {
  return prism(tongueCorners(cut, grown), -1, thickness + 1);
}

function tongueCorners({ x, y, length, root, flare }: DovetailCut, grown: number): Vec2[] {
  const [near, far] = [root / 2 + grown, root / 2 + flare + grown];
  // a little behind the cut, so that the tongue is one with its piece
  const back = 0.5;
  return [
    [x - back, y - near],
    [x, y - near],
    [x + length + grown, y - far],
    [x + length + grown, y + far],
    [x, y + near],
    [x - back, y + near],
  ];
}

/** Step of the search for a place, mm. */
const STEP = 1.5;

interface Gap {
  readonly from: number;
  readonly to: number;
}

/** Stretches of x between neighbouring openings, from left to right. */
function gapsBetween(region: FlangeRegion): Gap[] {
  const spans = region.openings.map((o) => outlineBounds(o.outline)).sort((a, b) => a.from[0] - b.from[0]);
  return spans.slice(1).map((s, i) => ({ from: spans[i]!.to[0], to: s.from[0] }));
}

/** The best tongue in a gap: the largest that fits, with the most metal about it. */
function cutIn(region: FlangeRegion, gap: Gap): DovetailCut | null {
  const { from, to } = outlineBounds(region.outer);
  const edge = flattenOutline(region.outer);
  for (const { metal, ...size } of TONGUES) {
    let best: { cut: DovetailCut; room: number } | null = null;
    for (let x = gap.from; x <= gap.to - size.length; x += STEP) {
      if (!cutsInTwo(edge, x) || region.bolts.some((b) => Math.abs(b.at[0] - x) < b.diameter / 2 + 1)) continue;
      for (let y = from[1]; y <= to[1]; y += STEP) {
        if (metalAbout(region, [x + size.length / 2, y]) < size.root / 2 + (best?.room ?? metal)) continue;
        const cut = { x, y, ...size };
        const room = metalRound(region, cut);
        if (room >= metal && (best === null || room > best.room + 1e-6)) best = { cut, room };
      }
    }
    if (best !== null) return best.cut;
  }
  return null;
}

/** True when the line at x crosses the plate's edge just twice: an ear it would sever stays whole. */
function cutsInTwo(edge: readonly Vec2[], x: number): boolean {
  return edge.filter((p, i) => p[0] < x !== edge[(i + 1) % edge.length]![0] < x).length === 2;
}

/** Least metal about a tongue, mm: 0 or less when it leaves the plate. */
function metalRound(region: FlangeRegion, cut: DovetailCut): number {
  const corners = tongueCorners(cut, 0);
  const points = corners.flatMap((p, i): Vec2[] => {
    const q = corners[(i + 1) % corners.length]!;
    return [p, [(p[0] + q[0]) / 2, (p[1] + q[1]) / 2]];
  });
  const inside = (p: Vec2) =>
    outlineContains(region.outer, p) &&
    !region.openings.some((o) => outlineContains(o.outline, p)) &&
    !region.slots.some((o) => outlineContains(o, p)) &&
    !region.bolts.some((b) => Math.hypot(p[0] - b.at[0], p[1] - b.at[1]) < b.diameter / 2);
  if (!points.every(inside)) return 0;
  return Math.min(...points.map((p) => metalAbout(region, p)));
}
