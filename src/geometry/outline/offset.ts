import { JOIN_TOLERANCE } from '../tolerance.js';
import { add2, scale2, type Vec2 } from '../vec2.js';
import { chainSides } from './chain.js';
import { pointToSide } from './distance.js';
import { cutAtCrossings, withoutDoubles } from './fragments.js';
import { perimeter, signedArea } from './measure.js';
import type { Outline } from './outline.js';
import { boxOf, pointApart, type SideBox } from './side-box.js';
import { arcAbout, directionAlong, pointAlong, type Side, sidesOf } from './sides.js';
import { isConvex, turnBetween } from './turn.js';

/** A piece of an offset curve belongs to the offset when its middle keeps the distance this well, mm. */
const KEEP_TOLERANCE = 1e-7;

/** What the vertices of a finished offset may be off, mm: crossings of nearly tangent curves drift along them. */
const GUARD_TOLERANCE = 1e-5;

/** A side of the given outlines with a box round it. */
interface Wall {
  readonly side: Side;
  readonly box: SideBox;
}

/**
 * The true offset of a region: every point of the result is exactly `distance` mm from the given outlines, outward for a
 * positive distance, inward for a negative one. The region is what the outlines turn round: outer ones counter-clockwise,
 * holes clockwise; the result is given the same way and is empty when nothing is left.
 *
 * Method: every side is moved along its normal and every corner that opens gets an arc; the curves are cut where they meet
 * and only pieces that keep the distance from all of the outline stay. Throws Error when a guard on the result fails.
 */
export function offsetOutlines(outlines: readonly Outline[], distance: number): readonly Outline[] {
  if (!Number.isFinite(distance)) throw new RangeError(`offset must be a finite length, got ${distance}`);
  if (distance === 0) return outlines;
  const sides = outlines.map(sidesOf);
  const all = sides.flat();
  const raw = sides.flatMap((loop) => loop.flatMap((s, i) => movedSide(s, loop[(i + 1) % loop.length]!, distance)));
  const walls = all.map((side): Wall => ({ side, box: boxOf(side) }));
  const d = Math.abs(distance);
  // A point so far from all sides is on the right side of the one it was moved from: between the two there is no other.
  const keeps = (p: Vec2): boolean => distanceWithin(p, walls, d) >= d - KEEP_TOLERANCE;
  const pieces = cutAtCrossings(raw).filter((piece) => keeps(pointAlong(piece, 0.5)));
  const result = chainSides(withoutDoubles(pieces, JOIN_TOLERANCE * 10));
  guardDistance(result, walls, distance);
  return result;
}

/** The outer edge of one outline's true offset; throws RangeError when an inward offset leaves nothing or falls into several pieces. */
export function offsetOutline(outline: Outline, distance: number): Outline {
  const loops = offsetOutlines([outline], distance).filter((o) => signedArea(o) > 0);
  if (loops.length !== 1) {
    throw new RangeError(
      `an offset of ${distance} mm leaves ${loops.length === 0 ? 'nothing' : `${loops.length} pieces`} of an outline`,
    );
  }
  if (distance > 0 && isConvex(outline)) guardConvexArea(outline, loops[0]!, distance);
  return loops[0]!;
}

/** A side moved along its right-hand normal, then the arc round the corner behind it where the offset opens there. */
function movedSide(side: Side, next: Side, d: number): Side[] {
  const moved: Side[] = [];
  if (side.kind === 'line') {
    const shift = scale2(rightOf(directionAlong(side, 0)), d);
    moved.push({ kind: 'line', from: add2(side.from, shift), to: add2(side.to, shift) });
  } else {
    const radius = side.radius + Math.sign(side.sweep) * d;
    if (radius > JOIN_TOLERANCE) moved.push(arcAbout(side.centre, radius, side.start, side.sweep));
  }
  const turn = turnBetween(side, next);
  if (turn * d > JOIN_TOLERANCE) {
    const n = scale2(rightOf(directionAlong(side, 1)), Math.sign(d));
    moved.push(arcAbout(side.to, Math.abs(d), Math.atan2(n[1], n[0]), turn));
  }
  return moved;
}

const rightOf = (v: Vec2): Vec2 => [v[1], -v[0]];

/** Least distance from a point to sides, mm, or infinity when all are further than `within`. */
function distanceWithin(p: Vec2, walls: readonly Wall[], within: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (const { side, box } of walls) {
    if (!pointApart(p, box, within)) least = Math.min(least, pointToSide(p, side).distance);
  }
  return least;
}

/** Throws unless every vertex and every middle of a side keeps the distance. */
function guardDistance(result: readonly Outline[], walls: readonly Wall[], d: number): void {
  for (const s of result.flatMap(sidesOf)) {
    for (const p of [s.from, pointAlong(s, 0.5)]) {
      const found = distanceWithin(p, walls, Math.abs(d) + 1);
      if (Math.abs(found - Math.abs(d)) > GUARD_TOLERANCE) {
        throw new Error(`an offset of ${d} mm came out at ${found} mm near ${p[0].toFixed(3)}, ${p[1].toFixed(3)}`);
      }
    }
  }
}

/** Closed form for the offset of a convex outline (Steiner): area = A + P d + pi d^2. Throws Error when it does not hold. */
function guardConvexArea(outline: Outline, result: Outline, d: number): void {
  const expected = signedArea(outline) + perimeter(outline) * d + Math.PI * d * d;
  const found = signedArea(result);
  if (Math.abs(found - expected) > 1e-6 * Math.max(expected, 1)) {
    throw new Error(`an offset of ${d} mm encloses ${found} mm2 where the closed form says ${expected} mm2`);
  }
}
