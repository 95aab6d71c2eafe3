import { pointToOutline } from '../../geometry/outline/distance.js';
import type { Outline, OutlineVertex } from '../../geometry/outline/outline.js';
import { arcAbout, bulgeOf, pointAlong, type Side, sideLength, sidesOf } from '../../geometry/outline/sides.js';

/** Sides as long as the longest within this part count as equally long. */
const AS_LONG = 0.01;

/**
 * The outline begun where a cutter should pierce and end: in the middle of its longest straight side, of equals the one with the
 * most room to the contours given, so that the mark of the pierce lies on no corner and away from them; where there is no straight
 * side, in the middle of its longest arc by the same rule. The shape stays the same.
 */
export function startedWell(outline: Outline, awayFrom: readonly Outline[]): Outline {
  const sides = sidesOf(outline);
  const straight = sides.some((s) => s.kind === 'line');
  const open = sides.map((side, index) => ({ side, index })).filter((s) => !straight || s.side.kind === 'line');
  const longest = Math.max(...open.map((s) => sideLength(s.side)));
  const room = (side: Side): number =>
    Math.min(1e6, ...awayFrom.map((o) => pointToOutline(pointAlong(side, 0.5), o).distance));
  const best = open
    .filter((s) => sideLength(s.side) >= longest * (1 - AS_LONG))
    .map((s) => ({ ...s, room: room(s.side) }))
    .reduce((a, b) => (b.room > a.room + 1e-6 ? b : a));
  const [x, y] = pointAlong(best.side, 0.5);
  const bulge = halfBulge(best.side);
  const v = outline.vertices;
  const turned: OutlineVertex[] = v.map((_, i) => v[(i + best.index + 1) % v.length]!);
  const last = turned.pop()!;
  return { vertices: [{ x, y, bulge }, ...turned, { ...last, bulge }] };
}

const halfBulge = (side: Side): number =>
  side.kind === 'line' ? 0 : bulgeOf(arcAbout(side.centre, side.radius, side.start, side.sweep / 2));
