import { chordsRound } from '../chord.js';
import type { Mesh } from '../mesh/mesh.js';
import type { Path } from '../path/path.js';
import { CHORD_ERROR } from '../tolerance.js';
import { ringAt, stations } from './sweep.js';

/**
 * A round tube, open at both ends, swept along an exact path: a skin of `outer` and one of `inner` mm radius, joined by flat rings square
 * to the path. Every corner lies on the true surfaces; facets are shared out and stray as those of `sweepRound` do, at most `error` mm.
 * Throws RangeError unless 0 < inner < outer, and when a bend is too tight for the tube (R <= outer).
 */
export function sweepTube(path: Path, outer: number, inner: number, error: number = CHORD_ERROR): Mesh {
  if (!(inner > 0 && inner < outer)) throw new RangeError(`no tube of radius ${outer} mm with a bore of ${inner} mm`);
  const n = chordsRound(outer, error / 2);
  const places = stations(path, outer, error / 2);
  const positions = places.flatMap(({ heading, normal }) =>
    [outer, inner].flatMap((radius) => ringAt(heading, normal, radius, n).flat()),
  );
  const triangles: number[] = [];
  const corner = (station: number, skin: 0 | 1, k: number): number => (2 * station + skin) * n + (k % n);
  const quad = (a: number, b: number, c: number, d: number): number => triangles.push(a, b, c, a, c, d);
  const last = places.length - 1;
  for (let k = 0; k < n; k++) {
    for (let i = 0; i < last; i++) {
      quad(corner(i, 0, k), corner(i, 0, k + 1), corner(i + 1, 0, k + 1), corner(i + 1, 0, k));
      quad(corner(i, 1, k + 1), corner(i, 1, k), corner(i + 1, 1, k), corner(i + 1, 1, k + 1));
    }
    quad(corner(0, 0, k + 1), corner(0, 0, k), corner(0, 1, k), corner(0, 1, k + 1));
    quad(corner(last, 0, k), corner(last, 0, k + 1), corner(last, 1, k + 1), corner(last, 1, k));
  }
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}
