import { frameFacing } from '../../geometry/frame.js';
import { type Bend, headingAt, type Path } from '../../geometry/path/path.js';
import { cross, signedAngle, type Vec3 } from '../../geometry/vec3.js';
import type { Plan } from '../../params/plan.js';
import type { RoutedSecondary, RoutedTube } from '../../routing/routed.js';
import type { Joint } from './joint.js';
import { cylinderOf, type Piece } from './pieces.js';

/** The joints of a tube from where it starts to the collector inlet: one more than its pieces. */
export function jointsOf(plan: Plan, tube: RoutedTube, pieces: readonly Piece[]): Joint[] {
  const lines = referenceLines(plan, tube, pieces);
  const count = pieces.length;
  return Array.from({ length: count + 1 }, (_, number): Joint => {
    const before = pieces[number - 1] ?? null;
    const after = pieces[number] ?? null;
    const kind = number === 0 ? startKind(tube) : after ? 'butt' : 'collector';
    const run = after?.fromRun ?? tube.length;
    const heading = headingAt(tube.path, run);
    const { od, wall } = before && (!after || before.od > after.od) ? before : after!;
    const clocking = after ? signedAngle(lines[number]!.arriving, lines[number]!.leaving, heading.direction) : null;
    return {
      name: jointName(tube, number),
      tube: tube.id,
      number,
      kind,
      before: before?.name ?? null,
      after: after?.name ?? null,
      run,
      ...heading,
      od,
      wall,
      gap: kind === 'butt' ? plan.weld.gap : 0,
      shrinkage: kind === 'butt' ? plan.weld.shrinkage : 0,
      clocking,
      clockingRound: clocking === null ? null : (clocking * after!.od) / 2,
      weldLength: Math.PI * (od - wall),
    };
  });
}

/** 'J2.1', 'Jfront.0'. */
export const jointName = (tube: RoutedTube, number: number): string => `J${tube.id}.${number}`;

const startKind = (tube: RoutedTube): Joint['kind'] => (cylinderOf(tube) === null ? 'outlet' : 'flange');

/** Reference line that comes to a joint and the one of the piece that leaves it: unit, square to the tube. */
interface Lines {
  readonly arriving: Vec3;
  readonly leaving: Vec3;
}

function referenceLines(plan: Plan, tube: RoutedTube, pieces: readonly Piece[]): Lines[] {
  let line = lineAtStart(plan, tube, pieces[0]!);
  return pieces.map((piece) => {
    const bend = bendOf(piece.path);
    const arriving = line;
    const leaving = bend ? cross(bend.direction, bend.normal) : line;
    // the outside stays the outside: turned with the tube through the bend
    line = bend ? cross(endDirection(bend), bend.normal) : line;
    return { arriving, leaving };
  });
}

/** The head's up, or the x of the collector a secondary comes from, laid square to the tube. */
function lineAtStart(plan: Plan, tube: RoutedTube, first: Piece): Vec3 {
  const { point, direction } = headingAt(first.path, 0);
  const cylinder = cylinderOf(tube);
  const port = plan.ports.find((p) => p.cylinder === cylinder);
  const up = port ? plan.heads[port.head]!.frame.y : plan.collectors[(tube as RoutedSecondary).from]!.frame.x;
  return frameFacing(point, direction, up).y;
}

/** The bend of a piece; null for a straight. */
export function bendOf({ segments }: Path): Bend | null {
  for (const s of segments) if (s.kind === 'bend') return s;
  return null;
}

const endDirection = (bend: Bend): Vec3 => headingAt({ segments: [bend] }, Number.POSITIVE_INFINITY).direction;
