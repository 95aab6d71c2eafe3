import { outlineContains } from '../../geometry/outline/contains.js';
import { type Nearest, outlineToOutline } from '../../geometry/outline/distance.js';
import { circleOutline } from '../../geometry/outline/make.js';
import type { Outline } from '../../geometry/outline/outline.js';
import type { Vec2 } from '../../geometry/vec2.js';
import type { FlangePart } from './part.js';
import { holeOutline } from './region.js';

/** Metal left between one opening or hole and another line of the flange. */
export interface FlangeMargin {
  /** 'cylinder 2' for an opening, 'bolt 5' for a hole (numbered from 1 in the plan's order), 'dowel 1', 'slot 1'. */
  readonly place: string;
  /** What it is measured to: 'outer edge' or another place. */
  readonly against: string;
  /** mm; below zero where the two overlap or one lies within the other. */
  readonly distance: number;
}

interface Gap {
  readonly place: string;
  readonly outline: Outline;
}

const openingsOf = (part: FlangePart): Gap[] =>
  part.region.openings.map((o) => ({ place: `cylinder ${o.cylinder}`, outline: o.outline }));

const holesOf = (part: FlangePart): Gap[] =>
  part.region.bolts.map((b) => ({ place: `bolt ${b.bolt + 1}`, outline: holeOutline(b) }));

const dowelsOf = (part: FlangePart): Gap[] =>
  part.region.dowels.map((d, i) => ({ place: `dowel ${i + 1}`, outline: circleOutline(d.at, d.diameter) }));

const slotsOf = (part: FlangePart): Gap[] =>
  part.region.slots.map((outline, i) => ({ place: `slot ${i + 1}`, outline }));

/** Least metal from every opening to the outer edge of the finished flange, exact. */
export const openingMargins = (part: FlangePart): readonly FlangeMargin[] =>
  openingsOf(part).map((o) => toEdge(o, part.region.outer));

/** Least metal from every bolt hole and dowel to the outer edge of the finished flange, exact. */
export const boltMargins = (part: FlangePart): readonly FlangeMargin[] =>
  [...holesOf(part), ...dowelsOf(part)].map((h) => toEdge(h, part.region.outer));

/** Metal from every slot or window to the outer edge of the finished flange, exact. */
export const slotMargins = (part: FlangePart): readonly FlangeMargin[] =>
  slotsOf(part).map((s) => toEdge(s, part.region.outer));

/** Metal between every two openings, holes or slots of the finished flange, exact, the thinnest first. */
export function websOf(part: FlangePart): readonly FlangeMargin[] {
  const gaps = [...openingsOf(part), ...holesOf(part), ...dowelsOf(part), ...slotsOf(part)];
  return gaps.flatMap((a, i) => gaps.slice(i + 1).map((b) => web(a, b))).sort((a, b) => a.distance - b.distance);
}

function toEdge(gap: Gap, outer: Outline): FlangeMargin {
  const nearest = outlineToOutline(gap.outline, outer);
  return margin(gap.place, 'outer edge', nearest, !outlineContains(outer, cornerOf(gap.outline)));
}

function web(a: Gap, b: Gap): FlangeMargin {
  const nearest = outlineToOutline(a.outline, b.outline);
  const within = outlineContains(a.outline, cornerOf(b.outline)) || outlineContains(b.outline, cornerOf(a.outline));
  return margin(a.place, b.place, nearest, within);
}

const cornerOf = (outline: Outline): Vec2 => [outline.vertices[0]!.x, outline.vertices[0]!.y];

const margin = (place: string, against: string, n: Nearest, wrong: boolean): FlangeMargin => ({
  place,
  against,
  distance: wrong ? -n.distance : n.distance,
});
