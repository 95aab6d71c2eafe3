import { partOfPath, pathLength } from '../../geometry/path.js';
import type { Vec3 } from '../../geometry/vec3.js';
import type { Piece } from '../pieces.js';

/**
 * The pieces as they are printed: a straight longer than the bed is printed in equal spans, '2B-1', '2B-2', joined by the same
 * key. `keyLength` mm of spigot must fit on the bed too. Every other piece is printed as it is.
 */
export function printedSpans(pieces: readonly Piece[], bed: Vec3, keyLength: number): Piece[] {
  return pieces.flatMap((piece) => {
    const length = pathLength(piece.path);
    // room for the lead of a tilted first end beside the spigot
    const most = Math.max(...bed) - keyLength - 2;
    const spans = piece.kind === 'straight' && most > 0 ? Math.ceil(length / most) : 1;
    if (spans === 1) return [piece];
    return Array.from({ length: spans }, (_, i): Piece => {
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
      };
    });
  });
}
