import { windingNumber } from '../../geometry/outline/contains.js';
import { outlineToOutline, pointToSide } from '../../geometry/outline/distance.js';
import { rectangleOutline } from '../../geometry/outline/make.js';
import { outlineBounds } from '../../geometry/outline/measure.js';
import type { Outline } from '../../geometry/outline/outline.js';
import { type Side, sidesOf } from '../../geometry/outline/sides.js';
import { translateOutline } from '../../geometry/outline/transform.js';
import { type StrokeText, strokeText, strokeUp } from '../../geometry/solid/stroke-font.js';
import { add2, distance2, lerp2, type Vec2 } from '../../geometry/vec2.js';
import type { FlatRegion } from './flat-part.js';

/**
 * Metal left round a mark and its height, mm, the best first: clear of the weld round a tube, then clear of a burr, then at all.
 * Common practice, no source.
 */
const TRIES: readonly (readonly [clear: number, height: number])[] = [5, 2.5, 1].flatMap((clear) =>
  [6, 5, 4, 3].filter((height) => height > 3 || clear === 1).map((height) => [clear, height] as const),
);

/** Steps of the grid places are looked for on, mm, and how far from where it belongs a number may stand. */
const STEP = 2.5;
const REACH = 70;

/** Most letters of a name that are marked. */
const LONGEST = 24;

/** Something to mark: words and where they belong. */
export interface Mark {
  readonly words: string;
  /** The mark stands as near to this as the metal allows, mm; 'up' marks the way up instead of words. */
  readonly near: Vec2;
  readonly up?: boolean;
}

/** Marks as strokes on the metal, and the words that found no room. */
export interface Engraving {
  readonly strokes: readonly (readonly Vec2[])[];
  readonly homeless: readonly string[];
}

/** An outline with its sides and box worked out once. */
interface Line {
  readonly outline: Outline;
  readonly sides: readonly Side[];
  readonly from: Vec2;
  readonly to: Vec2;
}

const lineOf = (outline: Outline): Line => ({ outline, sides: sidesOf(outline), ...outlineBounds(outline) });

/** Places every mark on bare metal, clear of edges, openings, holes, `keepOff` and each other; earlier ones choose first. */
export function engravingOf(region: FlatRegion, marks: readonly Mark[], keepOff: readonly Outline[] = []): Engraving {
  const gaps = [...region.openings, ...region.holes].map((o) => o.outline);
  const taken = [...gaps, ...region.slots, ...keepOff].map(lineOf);
  const outer = lineOf(region.outer);
  const strokes: (readonly Vec2[])[] = [];
  const homeless: string[] = [];
  for (const mark of marks) {
    const found = placed(outer, taken, mark);
    if (found === null) homeless.push(mark.words);
    else {
      taken.push(lineOf(found.box));
      strokes.push(...found.strokes);
    }
  }
  return { strokes, homeless };
}

function placed(
  outer: Line,
  taken: readonly Line[],
  mark: Mark,
): { box: Outline; strokes: readonly (readonly Vec2[])[] } | null {
  const places = placesNear(outer, mark.near).map((at) => ({ at, room: -1 }));
  for (const [clear, height] of TRIES) {
    const text = mark.up ? strokeUp(height) : strokeText(mark.words.slice(0, LONGEST), height);
    const size: Vec2 = [text.width + 2 * clear, text.height + 2 * clear];
    const box = rectangleOutline(...size);
    for (const place of places) {
      // Most places are ruled out by the metal round their middle, found once.
      if (place.room < 0) place.room = roomAt(place.at, outer, taken);
      if (place.room < Math.min(...size) / 2) continue;
      const there = lineOf(translateOutline(box, place.at));
      if (onMetal(there, outer, taken)) return { box: there.outline, strokes: moved(text, place.at) };
    }
  }
  return null;
}

const inside = (p: Vec2, { from, to, sides }: Line): boolean =>
  p[0] >= from[0] && p[0] <= to[0] && p[1] >= from[1] && p[1] <= to[1] && windingNumber(p, sides) !== 0;

/** Distance to the nearest line from a point on bare metal, 0 elsewhere, mm. */
function roomAt(p: Vec2, outer: Line, taken: readonly Line[]): number {
  if (!inside(p, outer) || taken.some((o) => inside(p, o))) return 0;
  let least = Number.POSITIVE_INFINITY;
  for (const { sides, from, to } of [outer, ...taken]) {
    const away = Math.max(from[0] - p[0], p[0] - to[0], from[1] - p[1], p[1] - to[1]);
    if (away < least) for (const s of sides) least = Math.min(least, pointToSide(p, s).distance);
  }
  return least;
}

const moved = ({ lines }: StrokeText, by: Vec2): readonly (readonly Vec2[])[] =>
  lines.map((line) => line.map((p) => add2(p, by)));

/** Points of a grid over the part, the nearest to where the mark belongs first. */
function placesNear({ from, to }: Line, near: Vec2): Vec2[] {
  const along = (a: number, b: number, at: number): number[] => {
    const first = at + STEP * Math.ceil((a - at) / STEP);
    return Array.from({ length: Math.max(Math.floor((b - first) / STEP) + 1, 0) }, (_, i) => first + STEP * i);
  };
  const points = along(from[0], to[0], near[0]).flatMap((x) => along(from[1], to[1], near[1]).map((y): Vec2 => [x, y]));
  const away = (p: Vec2): number => Math.round(distance2(p, near) * 1e6);
  return points
    .filter((p) => distance2(p, near) <= REACH)
    .sort((a, b) => away(a) - away(b) || b[1] - a[1] || a[0] - b[0]);
}

function onMetal(box: Line, outer: Line, taken: readonly Line[]): boolean {
  const corners = box.outline.vertices.map((v): Vec2 => [v.x, v.y]);
  if (!corners.every((p) => inside(p, outer))) return false;
  const clear = (o: Line): boolean => {
    if (o.from[0] > box.to[0] || box.from[0] > o.to[0] || o.from[1] > box.to[1] || box.from[1] > o.to[1]) return true;
    const first = o.outline.vertices[0]!;
    if (inside([first.x, first.y], box) || inside(corners[0]!, o)) return false;
    return outlineToOutline(box.outline, o.outline).distance > 0;
  };
  return taken.every(clear) && outlineToOutline(box.outline, outer.outline).distance > 0;
}

/** The middle of an outline's box. */
export function middleOf(outline: Outline): Vec2 {
  const { from, to } = outlineBounds(outline);
  return lerp2(from, to, 0.5);
}
