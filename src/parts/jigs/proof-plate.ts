import { outlineToOutline, pointToOutline } from '../../geometry/outline/distance.js';
import { flattenOutline } from '../../geometry/outline/flatten.js';
import { circleOutline } from '../../geometry/outline/make.js';
import { outlineBounds } from '../../geometry/outline/measure.js';
import type { Outline } from '../../geometry/outline/outline.js';
import { add2, distance2, scale2, type Vec2 } from '../../geometry/vec2.js';
import type { Plan } from '../../params/plan.js';
import { type FlangeOpening, type FlangeRegion, holeOutline } from '../flange/region.js';

/** Least thickness of a plug's lip, mm. */
const LEAST_LIP = 1.2;

/** How far a plug's lip stands over the edge of its opening, mm. */
export const LIP = 1.5;

/**
 * Thickness of the printed flange, mm: the plan's plate, but always thinner than the steel so that the plugs' lips can make up
 * the difference and the dummy tubes stand where the steel tubes will.
 */
export function proofThickness(plan: Plan): number {
  const steel = plan.flange.thickness;
  return Math.min(plan.jig.plate, Math.max(steel - LEAST_LIP, steel / 2));
}

/** A pocket in the outer face at the edge of a round opening, which takes a tab of the plug: round plugs would turn otherwise. */
export interface Notch {
  /** On the opening's edge, head face, mm, and the unit direction outwards. */
  readonly at: Vec2;
  readonly out: Vec2;
}

/** Width, reach and depth of the plug's tab, mm. */
export const TAB = { width: 4, reach: 2.5, depth: 2 } as const;

/** Openings whose distance from the middle varies less than this, mm, count as round. */
const ROUND = 1;

/** Where a round opening's notch goes: towards the most metal. Null for an opening that holds its plug by its shape. */
export function notchOf(region: FlangeRegion, opening: FlangeOpening): Notch | null {
  const edge = flattenOutline(opening.outline);
  const { from, to } = outlineBounds(opening.outline);
  const middle = scale2(add2(from, to), 0.5);
  const radii = edge.map((p) => distance2(p, middle));
  if (Math.max(...radii) - Math.min(...radii) > ROUND) return null;
  const radius = Math.max(...radii);
  const others: Outline[] = [
    region.outer,
    ...region.openings.filter((o) => o !== opening).map((o) => o.outline),
    ...region.bolts.map(holeOutline),
    ...region.slots,
    ...region.dowels.map((d) => circleOutline(d.at, d.diameter)),
  ];
  const places = Array.from({ length: 24 }, (_, i): Notch => {
    const a = Math.PI / 2 + (2 * Math.PI * i) / 24;
    const out: Vec2 = [Math.cos(a), Math.sin(a)];
    return { at: add2(middle, scale2(out, radius)), out };
  });
  const metal = (n: Notch): number => {
    const tip = circleOutline(add2(n.at, scale2(n.out, TAB.reach)), 0.1);
    return Math.min(...others.map((o) => outlineToOutline(tip, o).distance));
  };
  const room = places.map(metal);
  // the first of the best, so that the answer does not hang on rounding
  return places[room.reduce((best, r, i) => (r > room[best]! + 1e-6 ? i : best), 0)]!;
}

/** Least distance, mm, from a point on the flange to any opening, slot, hole or the outside. */
export function metalAbout(region: FlangeRegion, p: Vec2): number {
  return Math.min(
    pointToOutline(p, region.outer).distance,
    ...region.openings.map((o) => pointToOutline(p, o.outline).distance),
    ...region.bolts.map((b) =>
      b.slot === null ? Math.abs(distance2(p, b.at) - b.diameter / 2) : pointToOutline(p, holeOutline(b)).distance,
    ),
    ...region.slots.map((s) => pointToOutline(p, s).distance),
    ...region.dowels.map((d) => Math.abs(distance2(p, d.at) - d.diameter / 2)),
  );
}
