import { endOf, startOf } from '../../src/geometry/path.js';
import { cross, rotateAbout, signedAngle, type Vec3 } from '../../src/geometry/vec3.js';
import type { Plan } from '../../src/params/plan.js';
import { type CutPiece, cutListOf } from '../../src/parts/cut-list.js';
import type { Joint } from '../../src/parts/joint.js';
import { cylinderOf, tubeStart } from '../../src/parts/pieces.js';
import type { TubeCuts } from '../../src/parts/tube-cuts.js';
import type { RoutedTube } from '../../src/routing/routed.js';

/** Tubes as cut without gaps or shrinkage: joints where the pieces meet. */
export const tubeCutsOf = (plan: Plan, tubes: readonly RoutedTube[]): TubeCuts[] =>
  tubes.map((tube) => {
    const pieces = cutListOf(plan, [tube]);
    return {
      tube: tube.id,
      name: tube.name,
      pieces,
      joints: jointsOf(plan, tube, pieces),
      start: tubeStart(plan, tube),
      total: pieces.reduce((sum, c) => sum + c.length, tubeStart(plan, tube)),
      length: tube.length,
      target: tube.target,
    };
  });

function jointsOf(plan: Plan, tube: RoutedTube, pieces: readonly CutPiece[]): Joint[] {
  const cylinder = cylinderOf(tube);
  let line: Vec3 = cylinder === null ? plan.collectors.find((c) => c.name === tube.id)!.frame.x : [0, 1, 0];
  return Array.from({ length: pieces.length + 1 }, (_, i): Joint => {
    const [before, after] = [pieces[i - 1], pieces[i]];
    const { point, direction } = after ? startOf(after.piece.path) : endOf(before!.piece.path);
    const { od, wall } = (after ?? before)!;
    const next = after ? (outsideOf(after) ?? line) : null;
    const clocking = next === null ? null : signedAngle(line, next, direction);
    if (next !== null && after) line = carried(after, next);
    const end = after ? 'butt' : 'collector';
    return {
      name: `J${tube.id}.${i}`,
      tube: tube.id,
      number: i,
      kind: before ? end : cylinder === null ? 'outlet' : 'flange',
      before: before?.piece.name ?? null,
      after: after?.piece.name ?? null,
      run: after ? after.piece.fromRun : before!.piece.toRun,
      point,
      direction,
      od,
      wall,
      gap: 0,
      shrinkage: 0,
      clocking,
      clockingRound: clocking === null ? null : (clocking * od) / 2,
      weldLength: Math.PI * (od - wall),
    };
  });
}

/** Line of the outside of a bend at its start; null for a straight. */
function outsideOf({ piece }: CutPiece): Vec3 | null {
  const bend = piece.path.segments.find((s) => s.kind === 'bend');
  return bend?.kind === 'bend' ? cross(bend.direction, bend.normal) : null;
}

const carried = ({ piece }: CutPiece, line: Vec3): Vec3 =>
  piece.path.segments.reduce<Vec3>((n, s) => (s.kind === 'bend' ? rotateAbout(n, s.normal, s.angle) : n), line);
