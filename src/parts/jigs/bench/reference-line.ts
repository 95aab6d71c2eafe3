import { frameFacing } from '../../../geometry/frame.js';
import { carryNormal, headingIn, type Path, type PathSegment, startOf } from '../../../geometry/path/path.js';
import { sub, unit, type Vec3 } from '../../../geometry/vec3.js';
import type { Plan } from '../../../params/plan.js';
import type { RoutedTube } from '../../../routing/routed.js';
import { cylinderOf, type Piece, piecesOf } from '../../tube/pieces.js';

/** A piece with the line that is scribed along it: unit, square to the tube, world. */
export interface LinedPiece {
  readonly piece: Piece;
  readonly startLine: Vec3;
  readonly endLine: Vec3;
}

/**
 * The pieces of a tube with their reference lines. That of a bend is the line of its outside; a straight carries on that of the
 * piece before. A straight that comes first takes the head's up, laid square to the tube, or the collector's x at an outlet.
 */
export function linedPieces(plan: Plan, tube: RoutedTube): LinedPiece[] {
  let carried: Vec3 | null = null;
  return piecesOf(plan, tube).map((piece) => {
    const startLine: Vec3 = outsideAtStart(piece.path) ?? carried ?? firstLine(plan, tube, piece);
    carried = carryNormal(piece.path, startLine);
    return { piece, startLine, endLine: carried };
  });
}

/** The outside of a piece's bend, carried back to the piece's start; null for a straight. */
function outsideAtStart(path: Path): Vec3 | null {
  const bend = path.segments.find((s): s is PathSegment & { kind: 'bend' } => s.kind === 'bend');
  // a leg before the bend is straight and does not turn the line
  return bend ? unit(sub(headingIn(bend, 0).point, bend.centre)) : null;
}

function firstLine(plan: Plan, tube: RoutedTube, piece: Piece): Vec3 {
  const { point, direction } = startOf(piece.path);
  const cylinder = cylinderOf(tube);
  if (cylinder === null) {
    const from = plan.collectors.find((c) => c.name === tube.id)!;
    return frameFacing(point, direction, from.frame.x).y;
  }
  const port = plan.ports.find((p) => p.cylinder === cylinder)!;
  return frameFacing(point, direction, plan.heads[port.head]!.frame.y).y;
}
