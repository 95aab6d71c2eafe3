import { JOIN_TOLERANCE } from '../tolerance.js';
import { distance2, type Vec2 } from '../vec2.js';
import { fractionAt, sideCrossings } from './crossings.js';
import { boxesApart, boxOf } from './side-box.js';
import { pointAlong, type Side, sideLength } from './sides.js';

/** Cuts nearer together along a side than this, mm, are one cut: the drift of a crossing of two nearly tangent sides. */
const CUT_TOLERANCE = 1e-5;

/** The part of a side between two fractions of it, with given end points. */
function partOfSide(side: Side, t0: number, t1: number, from: Vec2, to: Vec2): Side {
  if (side.kind === 'line') return { kind: 'line', from, to };
  return { ...side, from, to, start: side.start + side.sweep * t0, sweep: side.sweep * (t1 - t0) };
}

/** Every side cut wherever any other side meets it. Pieces of crossing sides share their end points bit by bit, or nearly so at tangents. */
export function cutAtCrossings(sides: readonly Side[]): readonly Side[] {
  const cuts: Vec2[][] = sides.map(() => []);
  const boxes = sides.map(boxOf);
  for (let i = 0; i < sides.length; i++) {
    for (let j = i + 1; j < sides.length; j++) {
      if (boxesApart(boxes[i]!, boxes[j]!, JOIN_TOLERANCE)) continue;
      for (const p of sideCrossings(sides[i]!, sides[j]!)) {
        cuts[i]!.push(p);
        cuts[j]!.push(p);
      }
    }
  }
  return sides.flatMap((side, i) => cutAt(side, cuts[i]!));
}

function cutAt(side: Side, points: readonly Vec2[]): Side[] {
  const l = sideLength(side);
  const inner = points
    .filter((p) => distance2(p, side.from) > CUT_TOLERANCE && distance2(p, side.to) > CUT_TOLERANCE)
    .map((p) => ({ t: fractionAt(side, p), p }))
    .sort((a, b) => a.t - b.t)
    .filter((c, k, all) => k === 0 || (c.t - all[k - 1]!.t) * l > CUT_TOLERANCE);
  const stops = [{ t: 0, p: side.from }, ...inner, { t: 1, p: side.to }];
  return stops.slice(1).map((b, k) => partOfSide(side, stops[k]!.t, b.t, stops[k]!.p, b.p));
}

interface Piece {
  readonly side: Side;
  readonly middle: Vec2;
}

/** How two pieces lie on each other: the same run, the opposite run, or not at all. */
function coincidence(a: Piece, b: Piece, tolerance: number): 'same' | 'opposite' | 'none' {
  const near = (p: Vec2, q: Vec2): boolean => distance2(p, q) <= tolerance;
  if (!near(a.middle, b.middle)) return 'none';
  if (near(a.side.from, b.side.from) && near(a.side.to, b.side.to)) return 'same';
  return near(a.side.from, b.side.to) && near(a.side.to, b.side.from) ? 'opposite' : 'none';
}

/** Pieces with each of a pile that run the same way kept once, and pairs that run against each other left out: they enclose nothing. */
export function withoutDoubles(sides: readonly Side[], tolerance: number): readonly Side[] {
  const kept: Piece[] = [];
  for (const side of sides) {
    const piece = { side, middle: pointAlong(side, 0.5) };
    const twin = kept.findIndex((k) => coincidence(k, piece, tolerance) !== 'none');
    if (twin < 0) kept.push(piece);
    else if (coincidence(kept[twin]!, piece, tolerance) === 'opposite') kept.splice(twin, 1);
  }
  return kept.map((k) => k.side);
}
