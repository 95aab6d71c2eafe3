import { wrapPi } from '../../geometry/angle.js';
import { type Bend, endOf, headingIn, type Straight, segmentLength } from '../../geometry/path/path.js';
import { cross, length, sub, type Vec3 } from '../../geometry/vec3.js';
import type { MeasuredPiece } from '../../params/as-built/as-built.js';
import type { BuiltTube } from './built-tube.js';
import type { OpenStraight } from './open-straights.js';
import { shapeOfPath } from './tube-shape.js';

/** Where a built tube is not as planned. mm and rad. */
export interface Deviation {
  readonly kind: 'length' | 'angle' | 'clocking';
  /** 'piece 2C', 'straight 2', 'bend 1'. */
  readonly place: string;
  /** Name of the piece, and of the joint that mends it; null where there is none or more than one. */
  readonly piece: string | null;
  readonly joint: string | null;
  readonly measured: number;
  readonly planned: number;
  /** Measured less planned; of a clocking in (-pi, pi], right-handed along the gas. */
  readonly off: number;
  /** How far it moves the end of the tube, mm. */
  readonly effect: number;
}

/** What is off less than this moves nothing, mm at the tube's end. */
const NOTHING = 1e-6;

/** Where a tube differs from its route, what moves its end most first; nothing where only its length was measured. */
export function deviationsOf(built: BuiltTube, straights: readonly OpenStraight[]): Deviation[] {
  const { measured, shape } = built;
  if (shape === null) return [];
  const lengths =
    measured.kind === 'pieces' ? piecesOff(built, measured.pieces) : straightsOff(built, shape.straights, straights);
  return [...lengths, ...bendsOff(built, straights)]
    .filter((d) => d.effect > NOTHING)
    .sort((a, b) => b.effect - a.effect);
}

/** Straights of measured pieces: those of a bend together. */
function piecesOff({ cuts }: BuiltTube, pieces: readonly MeasuredPiece[]): Deviation[] {
  return pieces.flatMap((m): Deviation[] => {
    const c = cuts.pieces.find((p) => p.piece.name === m.piece)!;
    const planned = c.angle === null ? c.cutLegBefore : c.cutLegBefore + c.cutLegAfter;
    const found = c.angle === null ? (m.length ?? planned) : (m.before ?? c.cutLegBefore) + (m.after ?? c.cutLegAfter);
    const joint = c.angle !== null && m.before === null ? c.endJoint : c.startJoint;
    return [lengthOff(`piece ${m.piece}`, m.piece, joint, found, planned)];
  });
}

function straightsOff({ tube }: BuiltTube, found: readonly number[], straights: readonly OpenStraight[]): Deviation[] {
  const planned = shapeOfPath(tube.path).straights;
  return straights.map(({ index, pieces, joint }) =>
    lengthOff(`straight ${index + 1}`, pieces.length === 1 ? pieces[0]! : null, joint, found[index]!, planned[index]!),
  );
}

const lengthOff = (
  place: string,
  piece: string | null,
  joint: string | null,
  measured: number,
  planned: number,
): Deviation => ({
  kind: 'length',
  place,
  piece,
  joint,
  measured,
  planned,
  off: measured - planned,
  effect: Math.abs(measured - planned),
});

/** Angles of bends, and the turns between them. */
function bendsOff({ tube, cuts, shape }: BuiltTube, straights: readonly OpenStraight[]): Deviation[] {
  const route = shapeOfPath(tube.path);
  const bends = tube.path.segments.filter((s): s is Bend => s.kind === 'bend');
  const lines = tube.path.segments.filter((s): s is Straight => s.kind === 'straight');
  const own = cuts.pieces.filter((c) => c.angle !== null);
  const end = endOf(tube.path).point;
  const lever = (axis: Vec3, through: Vec3): number => length(cross(axis, sub(end, through)));
  return bends.flatMap((bend, k): Deviation[] => {
    const piece = own[k]!.piece.name;
    const off = shape!.angles[k]! - bend.angle;
    const middle = headingIn(bend, segmentLength(bend) / 2).point;
    const angle: Deviation = {
      kind: 'angle',
      place: `bend ${k + 1}`,
      piece,
      joint: null,
      measured: shape!.angles[k]!,
      planned: bend.angle,
      off,
      effect: Math.abs(off) * lever(bend.normal, middle),
    };
    const turn = shape!.turns[k];
    const planned = route.turns[k];
    if (turn == null || planned == null) return [angle];
    const turned = wrapPi(turn - planned);
    return [
      angle,
      {
        kind: 'clocking',
        place: `straight ${k + 1}`,
        piece: null,
        joint: straights[k]!.joint,
        measured: turn,
        planned,
        off: turned,
        effect: Math.abs(turned) * lever(lines[k]!.direction, lines[k]!.from),
      },
    ];
  });
}
