import { outlineContains } from '../../geometry/outline/contains.js';
import { outlineToOutline } from '../../geometry/outline/distance.js';
import type { Outline } from '../../geometry/outline/outline.js';
import type { FlatRegion } from './flat-part.js';

/** Metal between an opening or hole and another line of a part, exact. */
export interface FlatMargin {
  /** 'bolt 2', 'bore'. */
  readonly place: string;
  /** 'outer edge' or another place. */
  readonly against: string;
  /** mm; below zero where the two overlap. */
  readonly distance: number;
}

interface Gap {
  readonly place: string;
  readonly outline: Outline;
}

/** Metal from every opening and hole to the outer edge. */
export const edgeMargins = ({ outer, openings, holes }: FlatRegion) => ({
  openings: openings.map((o) => toEdge(o, outer)),
  holes: holes.map((h) => toEdge(h, outer)),
});

/** Metal between every two openings or holes. */
export function flatWebs({ openings, holes }: FlatRegion): readonly FlatMargin[] {
  const gaps: readonly Gap[] = [...openings, ...holes];
  return gaps.flatMap((a, i) => gaps.slice(i + 1).map((b) => web(a, b)));
}

function toEdge({ place, outline }: Gap, outer: Outline): FlatMargin {
  const { distance } = outlineToOutline(outline, outer);
  return { place, against: 'outer edge', distance: contains(outer, outline) ? distance : -distance };
}

function web(a: Gap, b: Gap): FlatMargin {
  const { distance } = outlineToOutline(a.outline, b.outline);
  const within = contains(a.outline, b.outline) || contains(b.outline, a.outline);
  return { place: a.place, against: b.place, distance: within ? -distance : distance };
}

const contains = (outer: Outline, inner: Outline): boolean =>
  outlineContains(outer, [inner.vertices[0]!.x, inner.vertices[0]!.y]);
