import { directionInto, type Frame, frameFacing, pointInto, WORLD } from '../../geometry/frame.js';
import { endOf, headingAt, type Path, pathLength, startOf } from '../../geometry/path.js';
import { pathInto } from '../../geometry/path-placed.js';
import type { Plane } from '../../geometry/plane.js';
import { difference, placed, type Solid, solidOf, trimmed, union } from '../../geometry/solid.js';
import { sweepRound } from '../../geometry/sweep.js';
import { textSolid } from '../../geometry/text-solid.js';
import { along, angleBetween, cross, dot, sub, type Vec3 } from '../../geometry/vec3.js';
import type { SolidPart } from '../part.js';
import type { Piece } from '../pieces.js';
import { printedPart } from '../printed-part.js';
import type { JointKey } from './joint-keys.js';
import { socket, spigot } from './key.js';
import { type LabelPlace, labelStrokes, RAISED } from './tube-label.js';

/** Depth of the flat a lying tube stands on, mm: without it the first layer would be a line. */
export const FOOT = 0.4;

export interface DummyTube {
  readonly piece: Piece;
  /** Keys at its start and its end. */
  readonly start: JointKey;
  readonly end: JointKey;
  /** For a first piece: the flange's outer face, world, its normal away from the head. */
  readonly face: Plane | null;
  readonly bed: Vec3;
}

/**
 * The printed twin of one piece of tube: solid, of its true outside, with a socket at the end towards the head, a spigot
 * at the other and its name raised on the outside. A first piece ends in the flange's face when the port is tilted.
 * A straight stands on its head end; a bend lies in its plane on a flat 0.4 mm deep, the name on top.
 */
export function dummyTube(tube: DummyTube): SolidPart {
  const { piece, bed } = tube;
  const { od } = piece;
  const { point, direction } = startOf(piece.path);
  const at = frameFacing(point, direction, piece.startNormal);
  const path = pathInto(at, piece.path);
  const face: Plane = tube.face
    ? { point: pointInto(at, tube.face.point), normal: directionInto(at, tube.face.normal) }
    : SQUARE_END;
  const make = (place: LabelPlace, up: Frame, foot: boolean): SolidPart => {
    const whole = withLabel(tubeWithKeys(tube, path, face, directionInto(at, piece.endNormal)), place, piece.name, od);
    const solid = foot ? trimmed(whole, footPlane(path, od, up.z)) : whole;
    return printedPart({ name: `tube-${piece.file}`, kind: 'dummy-tube', title: titleOf(tube), solid, at, up }, bed);
  };
  const bend = path.segments.find((s) => s.kind === 'bend');
  if (bend) {
    const up = bend.normal;
    return make(labelAt(path, pathLength(path) / 2, up), frameFacing(WORLD.origin, up, chord(path)), true);
  }
  const middle = labelAt(path, pathLength(path) / 2, [0, 1, 0]);
  const standing = make(middle, frameFacing(WORLD.origin, face.normal, [1, 0, 0]), false);
  if (standing.tooBig === null) return standing;
  const lying = make(middle, frameFacing(WORLD.origin, [0, 1, 0], [1, 0, 0]), true);
  return lying.tooBig === null ? lying : standing;
}

const SQUARE_END: Plane = { point: [0, 0, 0], normal: [0, 0, 1] };

function titleOf({ piece, start, end }: DummyTube): string {
  const plain = [...(start.length === 0 ? ['start'] : []), ...(end.length === 0 ? ['end'] : [])];
  const glue = plain.length === 0 ? '' : `; too short for a key at its ${plain.join(' and ')}: glue face to face`;
  return `Dummy tube ${piece.name}, ${piece.kind} of ${(piece.toRun - piece.fromRun).toFixed(1)} mm${glue}`;
}

/** The tube in the frame of its start. */
function tubeWithKeys(tube: DummyTube, path: Path, face: Plane, endNormal: Vec3): Solid {
  const { od } = tube.piece;
  const { point, direction } = endOf(path);
  const tilt = angleBetween([0, 0, 1], face.normal);
  // a tilted face leaves one side of a square end short: begin further back and cut off at the face
  const back = tilt > 1e-9 ? (od / 2) * Math.tan(tilt) + 1 : 0;
  const swept = solidOf(sweepRound(begunEarlier(path, back), od / 2));
  const body = back > 0 ? trimmed(swept, face) : swept;
  const { start, end } = tube;
  const bored = start.length > 0 ? difference(body, socket(start.key, start.length, WORLD, back + 1)) : body;
  if (end.length === 0) return bored;
  // the root of a spigot stays inside the shortest piece
  const sunk = Math.min(1, pathLength(path) / 2);
  return union(bored, spigot(end.key, end.length, frameFacing(point, direction, endNormal), sunk));
}

function begunEarlier(path: Path, by: number): Path {
  if (by === 0) return path;
  const { point, direction } = startOf(path);
  const from = along(point, direction, -by);
  const [first, ...rest] = path.segments;
  if (first!.kind === 'bend') return { segments: [{ kind: 'straight', from, direction, length: by }, first!, ...rest] };
  return { segments: [{ ...first!, from, length: first!.length + by }, ...rest] };
}

/** Names of very short pieces are left out. */
function withLabel(body: Solid, place: LabelPlace, name: string, od: number): Solid {
  const label = labelStrokes(name, place, od);
  if (label === null) return body;
  return union(body, placed(textSolid(label.strokes, -label.sunk, RAISED), place.frame(od / 2)));
}

/** Middle of the tube, `up` outwards, the writing along the tube. */
function labelAt(path: Path, run: number, up: Vec3): LabelPlace {
  const { point, direction } = headingAt(path, run);
  const bend = path.segments.find((s) => s.kind === 'bend');
  return {
    length: pathLength(path),
    clr: bend ? bend.clr : Number.POSITIVE_INFINITY,
    frame: (radius) => ({ origin: along(point, up, radius), x: direction, y: cross(up, direction), z: up }),
  };
}

/** From the start to the end of a path, or along it when they nearly coincide. */
function chord(path: Path): Vec3 {
  const c = sub(endOf(path).point, startOf(path).point);
  return dot(c, c) > 1 ? c : startOf(path).direction;
}

/** The flat on the underside of a lying tube. */
function footPlane(path: Path, od: number, up: Vec3): Plane {
  return { point: along(startOf(path).point, up, FOOT - od / 2), normal: up };
}
