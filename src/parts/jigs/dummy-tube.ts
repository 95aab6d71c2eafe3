import { directionInto, type Frame, frameFacing, pointInto, WORLD } from '../../geometry/frame.js';
import { endOf, type Path, pathLength, startOf } from '../../geometry/path/path.js';
import { pathInto } from '../../geometry/path/placed.js';
import type { Plane } from '../../geometry/plane.js';
import { difference, type Solid, solidOf, trimmed, union } from '../../geometry/solid/solid.js';
import { circlePoints } from '../../geometry/solid/solid-shapes.js';
import { type SweepSize, sweepSection } from '../../geometry/sweep/sweep.js';
import { CHORD_ERROR } from '../../geometry/tolerance.js';
import { along, angleBetween, cross, dot, scale, sub, type Vec3 } from '../../geometry/vec3.js';
import { lengthWords } from '../../params/faults/wording.js';
import type { JigPlan } from '../../params/plan.js';
import type { SolidPart } from '../part.js';
import { printedPart } from '../printed-part.js';
import { footBevel } from './foot-bevel.js';
import type { JointKey } from './joint-keys.js';
import { screwHole, screwLength, screwPilot } from './joint-screw.js';
import { socket, spigot } from './key.js';
import type { PrintedSpan } from './printed-spans.js';
import { cordRadius, tubeBore } from './tube-bore.js';
import { type MarkedJoint, tubeMarks } from './tube-marks.js';

/** Depth of the flat a lying tube stands on, mm: without it the first layer would be a line. */
export const FOOT = 0.4;

/** Half the groove round a joint of the steel tube, mm, wide and deep: each of the two pieces has its edge taken off at 45 degrees. */
export const CUT_LINE = 1;

export interface DummyTube {
  readonly piece: PrintedSpan;
  /** Keys at its start and its end. */
  readonly start: JointKey;
  readonly end: JointKey;
  /** For a first piece: the flange's outer face, world, its normal away from the head. */
  readonly face: Plane | null;
  readonly jig: JigPlan;
}

/** A dummy tube in the frame of its start, y where the carried normal points. */
interface OwnTube extends DummyTube {
  readonly path: Path;
  readonly cutAt: Plane;
  /** How far before its start a tilted end makes it begin, mm. */
  readonly back: number;
  readonly at: Frame;
}

/** How a tube lies on the printer: which way is up, and whether it lies on a flat of its skin. */
interface Lying {
  readonly up: Frame;
  readonly foot: boolean;
}

/**
 * The printed twin of one piece of tube, of its true outside: solid or hollow, with a socket at the end towards the head, a
 * spigot at the other, its name raised on the outside, and the plan's marks. A first piece ends in the flange's face when the
 * port is tilted. A straight stands on its head end; a bend lies in its plane on a flat 0.4 mm deep, the name on top. Where
 * the steel tube is cut the edge is taken off, 1 mm, so that a groove runs round every joint of the steel and none but those.
 */
export function dummyTube(tube: DummyTube): SolidPart {
  const { piece } = tube;
  const { point, direction } = startOf(piece.path);
  const at = frameFacing(point, direction, piece.startNormal);
  const path = pathInto(at, piece.path);
  const cutAt: Plane = tube.face
    ? { point: pointInto(at, tube.face.point), normal: directionInto(at, tube.face.normal) }
    : SQUARE_END;
  const tilt = angleBetween([0, 0, 1], cutAt.normal);
  // a tilted face leaves one side of a square end short: begin further back and cut off at the face
  const own: OwnTube = { ...tube, path, cutAt, at, back: tilt > 1e-9 ? (piece.od / 2) * Math.tan(tilt) + 1 : 0 };
  const bend = path.segments.find((s) => s.kind === 'bend');
  if (bend) return printed(own, { up: frameFacing(WORLD.origin, bend.normal, chord(path)), foot: true });
  const standing = printed(own, { up: frameFacing(WORLD.origin, cutAt.normal, [1, 0, 0]), foot: false });
  if (standing.tooBig === null) return standing;
  const lying = printed(own, { up: frameFacing(WORLD.origin, [0, 1, 0], [1, 0, 0]), foot: true });
  return lying.tooBig === null ? lying : standing;
}

const SQUARE_END: Plane = { point: [0, 0, 0], normal: [0, 0, 1] };

function printed(tube: OwnTube, lying: Lying): SolidPart {
  const { piece, path, at, jig } = tube;
  const whole = tubeSolid(tube, lying);
  const solid = lying.foot ? trimmed(whole, footPlane(path, piece.od, lying.up.z)) : whole;
  // a tilted end that stands on the bed is cut after it was swept, so its edge is taken off when it lies there
  const chamfer = !lying.foot && tube.back > 0 ? jig.chamfer : 0;
  return printedPart(
    { name: `tube-${piece.file}`, kind: 'dummy-tube', title: titleOf(tube), solid, at, up: lying.up, chamfer },
    jig.bed,
  );
}

function titleOf({ piece, start, end, jig }: DummyTube): string {
  const plain = [...(start.length === 0 ? ['start'] : []), ...(end.length === 0 ? ['end'] : [])];
  const glue = plain.length === 0 ? '' : `; too short for a key at its ${plain.join(' and ')}: glue face to face`;
  const longest = start.screw ? screwLength(piece.od / 2, cordRadius(jig.cord, jig.fit) ?? 0) : null;
  const screw = longest === null ? '' : `; M3 x ${longest} screw at its start`;
  const bore = jig.tubeWall === null ? '' : 'hollow, ';
  const length = lengthWords(piece.toRun - piece.fromRun, jig.units, 1);
  return `Dummy tube ${piece.name}, ${bore}${piece.kind} of ${length}${screw}${glue}`;
}

/** The tube in the frame of its start. */
function tubeSolid(tube: OwnTube, lying: Lying): Solid {
  const { piece, path, cutAt, back, start, end, at, jig } = tube;
  const { od } = piece;
  const { point, direction } = endOf(path);
  const farEnd = frameFacing(point, direction, directionInto(at, piece.endNormal));
  const swept = solidOf(tubeBody(tube, lying));
  const body = back > 0 ? trimmed(swept, cutAt) : swept;
  const up: Vec3 = lying.foot ? lying.up.z : [0, 1, 0];
  const marks = marksOf(tube, up, lying.foot);
  // the root of a spigot stays inside the shortest piece
  const sunk = Math.min(1, pathLength(path) / 2);
  const cord = cordRadius(jig.cord, jig.fit);
  const bore = tubeBore({
    path,
    radius: od / 2,
    wall: jig.tubeWall,
    cord,
    start,
    end,
    back,
    up: lying.foot ? up : null,
    side: cross(up, startOf(path).direction),
  });
  const own = (way: Vec3): Vec3 => directionInto(at, way);
  return difference(
    union(body, ...(end.length > 0 ? [spigot(end.key, end.length, farEnd, sunk)] : []), ...marks.raised),
    ...(start.length > 0 ? [socket(start.key, start.length, WORLD, back + 1, edgeOf(tube, lying))] : []),
    ...(start.screw ? [screwHole(WORLD, start.length, own(start.screw), od / 2)] : []),
    ...(end.screw ? [screwPilot(farEnd, end.length, own(end.screw), end.key.radius, cord ?? 0)] : []),
    ...(bore ? [solidOf(bore)] : []),
    ...marks.cut,
    ...(lying.foot ? footBevels(tube, up, farEnd) : []),
  );
}

/** Chamfer of the socket of a tube that stands on its start, mm, as far as the key's flat allows. */
const edgeOf = ({ start, back, jig }: OwnTube, { foot }: Lying): number =>
  foot || back > 0 ? 0 : Math.min(jig.chamfer, start.length / 4);

/** The edges of a lying tube's foot at its ends; none where a groove for a joint has taken off more. */
function footBevels(tube: OwnTube, up: Vec3, farEnd: Frame): Solid[] {
  const { piece, path, cutAt, jig } = tube;
  const size = Math.min(jig.chamfer, pathLength(path) / 4);
  const [height, half] = [piece.od / 2 - FOOT, piece.od / 2];
  const grooves = endGrooves(tube, 0);
  const start = { axis: WORLD.origin, face: cutAt.point, out: scale(cutAt.normal, -1), up, height, half };
  const end = { axis: farEnd.origin, face: farEnd.origin, out: farEnd.z, up, height, half };
  return [start, end].flatMap((e, i) => (size > 0 && grooves[i]! - FOOT < size ? [footBevel(e, size)] : []));
}

/** How much of the edges at its start and its end is taken off: at joints of the steel, and `onBed` mm where it stands on its start. */
function endGrooves({ piece, path, back, jig }: OwnTube, onBed: number): readonly [start: number, end: number] {
  const most = Math.min(pathLength(path) / 4, piece.od / 8);
  const line = (isCut: boolean): number => (jig.marks && isCut ? CUT_LINE : 0);
  return [
    back > 0 ? 0 : Math.min(most, Math.max(onBed, line(piece.startsAtCut))),
    Math.min(most, line(piece.endsAtCut)),
  ];
}

/** The round body with the edges at its ends taken off. */
function tubeBody(tube: OwnTube, { up, foot }: Lying) {
  const { piece, path, back, jig } = tube;
  const radius = piece.od / 2;
  const length = pathLength(path);
  const [atStart, atEnd] = endGrooves(tube, foot ? 0 : jig.chamfer);
  const narrow = (by: number): number => (radius - by) / radius;
  const sizes: SweepSize[] = [
    { run: -back, size: narrow(atStart) },
    ...(atStart > 0 ? [{ run: atStart, size: 1 }] : []),
    ...(atEnd > 0 ? [{ run: length - atEnd, size: 1 }] : []),
    { run: length, size: narrow(atEnd) },
  ];
  const side: Vec3 = foot ? cross(up.z, startOf(path).direction) : [1, 0, 0];
  return sweepSection(path, circlePoints(radius, CHORD_ERROR / 2), side, sizes, CHORD_ERROR / 2);
}

/** Room kept clear of what stands out at an end, beside its groove, mm. */
const BESIDE_CUT = 0.5;

function marksOf({ piece, path, back, at, jig }: OwnTube, up: Vec3, lies: boolean) {
  const radius = piece.od / 2;
  const joint = (isCut: boolean, number: number, normal: Vec3): MarkedJoint | null =>
    jig.marks && isCut ? { name: `J${piece.tube}.${number}`, normal: directionInto(at, normal) } : null;
  return tubeMarks({
    skin: { path, up, radius },
    name: piece.name,
    fromRun: piece.fromRun,
    scale: jig.scale,
    clear: [Math.max(back, CUT_LINE) + BESIDE_CUT, CUT_LINE + BESIDE_CUT],
    back,
    joints: [
      joint(piece.startsAtCut, piece.number - 1, piece.startNormal),
      joint(piece.endsAtCut, piece.number, piece.endNormal),
    ],
    foot: lies ? Math.acos(1 - FOOT / radius) : 0,
  });
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
