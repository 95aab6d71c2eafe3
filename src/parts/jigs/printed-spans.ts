import { partOfPath, pathLength } from '../../geometry/path/path.js';
import type { Vec3 } from '../../geometry/vec3.js';
import type { Piece } from '../tube/pieces.js';

/** A piece of steel tube, or the part of one that is printed at once. */
export interface PrintedSpan extends Piece {
  /** Whether the steel piece starts and ends where the span does: joints between spans are not cut in steel. */
  readonly startsAtCut: boolean;
  readonly endsAtCut: boolean;
}

/**
 * The pieces as they are printed: a straight longer than the bed is printed in equal spans, '2B-1', '2B-2', joined by the same
 * key. `keyLength` mm of spigot must fit on the bed too. Every other piece is printed as it is.
 */
export function printedSpans(pieces: readonly Piece[], bed: Vec3, keyLength: number): PrintedSpan[] {
  return pieces.flatMap((piece) => {
    const length = pathLength(piece.path);
    // room for the lead of a tilted first end beside the spigot
    const most = Math.max(...bed) - keyLength - 2;
    const spans = piece.kind === 'straight' && most > 0 ? Math.ceil(length / most) : 1;
    if (spans === 1) return [{ ...piece, startsAtCut: true, endsAtCut: true }];
    return Array.from({ length: spans }, (_, i): PrintedSpan => {
      const [from, to] = [(length * i) / spans, (length * (i + 1)) / spans];
      return {
        ...piece,
        name: `${piece.name}-${i + 1}`,
        file: `${piece.file}-${i + 1}`,
        fromRun: piece.fromRun + from,
        toRun: piece.fromRun + to,
        path: partOfPath(piece.path, from, to),
        first: piece.first && i === 0,
        last: piece.last && i === spans - 1,
        startsAtCut: i === 0,
        endsAtCut: i === spans - 1,
      };
    });
  });
}
