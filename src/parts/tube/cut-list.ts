import { pathLength } from '../../geometry/path/path.js';
import { signedAngle } from '../../geometry/vec3.js';
import type { Joint } from './joint.js';
import { bendOf } from './joints.js';
import type { Piece } from './pieces.js';

/** A piece of tube to cut, as the saw needs it. mm and rad. */
export interface CutPiece {
  /** The piece. */
  readonly piece: Piece;
  /** Names of the joints at its ends. */
  readonly startJoint: string;
  /** Name of the joint at its end. */
  readonly endJoint: string;
  /** Outside diameter, mm. */
  readonly od: number;
  /** Wall, mm. */
  readonly wall: number;
  /** Straight before the bend, the bend's angle and radius, straight after it; a straight piece has only the first. */
  readonly legBefore: number;
  /** Bend angle, rad; null for a straight piece. */
  readonly angle: number | null;
  /** Centreline radius, mm; null for a straight piece. */
  readonly clr: number | null;
  /** Straight after the bend, mm. */
  readonly legAfter: number;
  /** Lengths along the inside, the centreline and the outside of the bend itself: (R - OD/2), R and (R + OD/2) times the angle. */
  readonly insideArc: number | null;
  /** Along the centreline. */
  readonly centreArc: number | null;
  /** Along the outside. */
  readonly outsideArc: number | null;
  /** Centreline length of the whole piece. */
  readonly length: number;
  /** The legs and the whole piece as they are cut: what gaps less shrinkage add at its joints is taken from its straights. */
  readonly cutLegBefore: number;
  /** Leg after the bend as it is cut, mm. */
  readonly cutLegAfter: number;
  /** Length as it is cut, mm. */
  readonly cutLength: number;
  /** Turn of the next bend plane against this one's about the joint, right-handed along the flow; null where either piece is straight. */
  readonly clocking: number | null;
  /** The same as a distance round the tube's outside. */
  readonly clockingRound: number | null;
}

/** The pieces of one tube as they are cut, from its pieces and the joints round them. */
export function cutPiecesOf(pieces: readonly Piece[], joints: readonly Joint[]): readonly CutPiece[] {
  const whole = pieces.map((piece, i) => {
    const nextBend = pieces.slice(i + 1).find((q) => q.kind === 'bend') ?? null;
    return wholePiece(piece, joints[i]!.name, joints[i + 1]!.name, nextBend);
  });
  return withAllowances(whole, joints);
}

function wholePiece(piece: Piece, startJoint: string, endJoint: string, nextBend: Piece | null): CutPiece {
  const { od, wall } = piece;
  const bend = bendOf(piece.path);
  const at = piece.path.segments.findIndex((s) => s.kind === 'bend');
  const straightBetween = (from: number, to: number): number =>
    piece.path.segments.slice(from, to).reduce((sum, s) => sum + (s.kind === 'straight' ? s.length : 0), 0);
  const count = piece.path.segments.length;
  const next = nextBend && bendOf(nextBend.path);
  const clocking = bend && next ? signedAngle(bend.normal, next.normal, next.direction) : null;
  const legBefore = bend ? straightBetween(0, at) : straightBetween(0, count);
  const legAfter = bend ? straightBetween(at + 1, count) : 0;
  const length = pathLength(piece.path);
  return {
    piece,
    startJoint,
    endJoint,
    od,
    wall,
    legBefore,
    angle: bend?.angle ?? null,
    clr: bend?.clr ?? null,
    legAfter,
    insideArc: bend ? (bend.clr - od / 2) * bend.angle : null,
    centreArc: bend ? bend.clr * bend.angle : null,
    outsideArc: bend ? (bend.clr + od / 2) * bend.angle : null,
    length,
    cutLegBefore: legBefore,
    cutLegAfter: legAfter,
    cutLength: length,
    clocking,
    clockingRound: clocking === null ? null : (clocking * od) / 2,
  };
}

/**
 * Each butt joint makes the tube longer by its gap less its shrinkage; the straights that meet there are cut that much shorter, or
 * longer where it shrinks more than it gaps: half each, or all from the one there is. Where bend meets bend, or a straight
 * has no more to give, the rest stays in the tube's length.
 */
function withAllowances(whole: readonly CutPiece[], joints: readonly Joint[]): CutPiece[] {
  const pieces = [...whole];
  joints.forEach(({ kind, gap, shrinkage }, j) => {
    if (kind !== 'butt') return;
    const add = gap - shrinkage;
    const room = [straightAt(pieces[j - 1]!, 'end'), straightAt(pieces[j]!, 'start')] as const;
    const [before, after] = shares(add, room);
    pieces[j - 1] = shortened(pieces[j - 1]!, 'end', before);
    pieces[j] = shortened(pieces[j]!, 'start', after);
  });
  return pieces;
}

/** What each of two straights gives of an allowance, mm; negative where it grows. */
function shares(add: number, [a, b]: readonly [number, number]): [number, number] {
  if (a <= 0 && b <= 0) return [0, 0];
  if (a <= 0) return [0, Math.min(add, b)];
  if (b <= 0) return [Math.min(add, a), 0];
  const first = Math.min(Math.max(add / 2, add - b), a);
  return [first, Math.min(add - first, b)];
}

/** Straight that a piece still has at one of its ends, mm. */
function straightAt({ angle, cutLegBefore, cutLegAfter }: CutPiece, end: 'start' | 'end'): number {
  return angle === null || end === 'start' ? cutLegBefore : cutLegAfter;
}

function shortened(c: CutPiece, end: 'start' | 'end', by: number): CutPiece {
  const cutLength = c.cutLength - by;
  return c.angle === null || end === 'start'
    ? { ...c, cutLegBefore: c.cutLegBefore - by, cutLength }
    : { ...c, cutLegAfter: c.cutLegAfter - by, cutLength };
}
