import { type Bend, pathLength } from '../geometry/path.js';
import { signedAngle } from '../geometry/vec3.js';
import type { Plan } from '../params/plan.js';
import type { RoutedPrimary } from '../routing/routed.js';
import { type Piece, piecesOf } from './pieces.js';

/** A piece of tube to cut, as the saw needs it. mm and rad. */
export interface CutPiece {
  readonly piece: Piece;
  readonly od: number;
  readonly wall: number;
  /** Straight before the bend, the bend's angle and radius, straight after it; a straight piece has only the first. */
  readonly legBefore: number;
  readonly angle: number | null;
  readonly clr: number | null;
  readonly legAfter: number;
  /** Lengths along the inside, the centreline and the outside of the bend itself: (R - OD/2), R and (R + OD/2) times the angle. */
  readonly insideArc: number | null;
  readonly centreArc: number | null;
  readonly outsideArc: number | null;
  /** Centreline length of the whole piece. */
  readonly length: number;
  /** Turn of the next bend plane against this one's about the joint, right-handed along the flow; null where either piece is straight. */
  readonly clocking: number | null;
  /** The same as a distance round the tube's outside. */
  readonly clockingRound: number | null;
}

/** The pieces of every primary in order from the head. */
export function cutListOf(plan: Plan, primaries: readonly RoutedPrimary[]): readonly CutPiece[] {
  return primaries.flatMap((p) => {
    const pieces = piecesOf(plan, p);
    return pieces.map((piece, i) => cutPiece(plan, piece, pieces.slice(i + 1).find((q) => q.kind === 'bend') ?? null));
  });
}

function cutPiece(plan: Plan, piece: Piece, nextBend: Piece | null): CutPiece {
  const { od, wall } = plan.tube;
  const bend = bendOf(piece);
  const at = piece.path.segments.findIndex((s) => s.kind === 'bend');
  const straightBetween = (from: number, to: number): number =>
    piece.path.segments.slice(from, to).reduce((sum, s) => sum + (s.kind === 'straight' ? s.length : 0), 0);
  const count = piece.path.segments.length;
  const next = nextBend && bendOf(nextBend);
  const clocking = bend && next ? signedAngle(bend.normal, next.normal, next.direction) : null;
  return {
    piece,
    od,
    wall,
    legBefore: bend ? straightBetween(0, at) : straightBetween(0, count),
    angle: bend?.angle ?? null,
    clr: bend?.clr ?? null,
    legAfter: bend ? straightBetween(at + 1, count) : 0,
    insideArc: bend ? (bend.clr - od / 2) * bend.angle : null,
    centreArc: bend ? bend.clr * bend.angle : null,
    outsideArc: bend ? (bend.clr + od / 2) * bend.angle : null,
    length: pathLength(piece.path),
    clocking,
    clockingRound: clocking === null ? null : (clocking * od) / 2,
  };
}

function bendOf(piece: Piece): Bend | null {
  for (const s of piece.path.segments) if (s.kind === 'bend') return s;
  return null;
}
