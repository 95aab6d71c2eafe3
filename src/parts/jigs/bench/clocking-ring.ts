import { directionInto, type Frame, frameFacing, WORLD } from '../../../geometry/frame.js';
import { headingAt, type Path, partOfPath, pathLength } from '../../../geometry/path/path.js';
import { pathInto } from '../../../geometry/path/placed.js';
import { difference, hullOfPoints, type Solid, union } from '../../../geometry/solid/solid.js';
import { onStation, sectorSection, sweepSection } from '../../../geometry/sweep/sweep-section.js';
import { CHORD_ERROR } from '../../../geometry/tolerance.js';
import { along, rotateAbout, scale, signedAngle, type Vec3 } from '../../../geometry/vec3.js';
import { lengthWords } from '../../../params/faults/wording.js';
import type { BenchPlan, JigPlan, Plan } from '../../../params/plan.js';
import type { RoutedTube } from '../../../routing/routed.js';
import type { SolidPart } from '../../part.js';
import { printedPart } from '../../printed-part.js';
import { COMES_OFF } from './bench-caution.js';
import { curvedText, SLIVER, stationAt } from './curved-text.js';
import { type LinedPiece, linedPieces } from './reference-line.js';

/** Length of the collar on either piece, mm. Our own, as are all sizes of the ring. */
const COLLAR = 8;

/** Free length of tube on either side of a joint without which nothing can be tacked, mm. */
const LEAST_WINDOW = 6;

/** A ring ends this much before a saddle may begin, mm: on a bend their faces lean towards each other. */
const APART = 4;

/** What stays free of saddles on either side of a joint, mm: the torch's room, and the ring where there is one. */
export const jointRoom = ({ torchRoom, clockingRings: rings }: BenchPlan): number =>
  Math.max(torchRoom, rings ? LEAST_WINDOW + COLLAR + APART : 0);

/** How far from the joint a ring ends at most, mm. */
export const ringReach = (bench: BenchPlan): number => jointRoom(bench) - APART;

/** Wall of a collar, and how far the bars stand off the tube over the window, mm. */
const WALL = 7;
const STAND_OFF = 3;

/** How far a collar goes round, rad: it springs on and off, and both lines are within it whatever the clocking. */
const WRAP = (210 * Math.PI) / 180;

/** Angle a bar takes up, and how far it keeps from the skin of the collars it joins, so that no two faces lie in one: rad and mm. */
const BAR = Math.PI / 6;
const INSET = { angle: 0.04, skin: 0.8 } as const;

/** Width and depth of the notches, mm. */
const NOTCH = { width: 5, depth: 5 } as const;

/** A joint between two pieces and the turn of one reference line to the other. */
export interface ClockedJoint {
  /** 'J2.1'. */
  readonly name: string;
  readonly before: LinedPiece;
  readonly after: LinedPiece;
  readonly point: Vec3;
  /** Way of the gas. */
  readonly direction: Vec3;
  /** Rad in (-pi, pi], right-handed about the way of the gas. */
  readonly clocking: number;
}

/** The joints between the pieces of a tube, from the one nearest the head. */
export function clockedJoints(plan: Plan, tube: RoutedTube): ClockedJoint[] {
  const pieces = linedPieces(plan, tube);
  return pieces.slice(1).map((after, i) => {
    const before = pieces[i]!;
    const { point, direction } = headingAt(after.piece.path, 0);
    // no minus before a zero
    const clocking = signedAngle(before.endLine, after.startLine, direction) + 0;
    return { name: `J${tube.id}.${i + 1}`, before, after, point, direction, clocking };
  });
}

/** Rings, and the joints that have none. */
export interface ClockingRings {
  readonly parts: readonly SolidPart[];
  readonly notes: readonly string[];
}

/**
 * A ring for every joint of a tube: a collar that springs onto either piece, with a notch over that piece's reference line, and
 * two bars that hold the collars at the true clocking and leave the joint open to the torch. Half as far round as the clocking
 * either way from the middle, so that both notches lie in the collars.
 */
export function clockingRings(plan: Plan, tube: RoutedTube, file: string, bench: BenchPlan): ClockingRings {
  const parts: SolidPart[] = [];
  const notes: string[] = [];
  for (const [i, joint] of clockedJoints(plan, tube).entries()) {
    const window = windowOf(joint, bench);
    if (window < LEAST_WINDOW) {
      const short =
        pathLength(joint.before.piece.path) < pathLength(joint.after.piece.path) ? joint.before : joint.after;
      notes.push(
        `joint ${joint.name}: piece ${short.piece.name} is too short for a clocking ring; set it by the scribed lines`,
      );
      continue;
    }
    if (tightest(joint) <= outerRadius(joint, plan.jig.fit)) {
      notes.push(`joint ${joint.name}: its bend is too tight for a clocking ring; set it by the scribed lines`);
      continue;
    }
    parts.push(ringOf(joint, tube, `ring-${file}-${i + 1}`, window, plan.jig));
  }
  return { parts, notes };
}

/** Free length on either side of the joint, mm, less where a piece is short: a collar keeps off a piece's other end. */
function windowOf({ before, after }: ClockedJoint, bench: BenchPlan): number {
  const shortest = Math.min(pathLength(before.piece.path), pathLength(after.piece.path));
  return Math.min(ringReach(bench), shortest - 1) - COLLAR;
}

/** Smallest centreline radius beside a joint, mm. */
const tightest = ({ before, after }: ClockedJoint): number =>
  Math.min(...[before, after].flatMap((l) => l.piece.path.segments.map((s) => (s.kind === 'bend' ? s.clr : Infinity))));

const outerRadius = ({ before, after }: ClockedJoint, fit: number): number =>
  Math.max(before.piece.od, after.piece.od) / 2 + fit + WALL;

function ringOf(joint: ClockedJoint, tube: RoutedTube, name: string, window: number, jig: JigPlan): SolidPart {
  const { before, after, clocking, direction } = joint;
  const middle = rotateAbout(before.endLine, direction, clocking / 2);
  const at = frameFacing(joint.point, direction, middle);
  const run = after.piece.fromRun;
  const reach = window + COLLAR;
  const whole = pathInto(at, partOfPath(tube.path, run - reach, run + reach));
  const outer = outerRadius(joint, jig.fit);
  const start = carriedBack(whole, [0, 1, 0], reach);
  const collar = (from: number, own: number): Solid => {
    const path = partOfPath(whole, from, from + COLLAR);
    const normal = stationAt({ path: whole, normal: start }, from).normal;
    return sweepSection(path, normal, sectorSection([own / 2 + jig.fit + CHORD_ERROR, outer], -WRAP / 2, WRAP / 2));
  };
  const bars = [-1, 1].map((side) => {
    const centre = side * ((WRAP - BAR) / 2 - INSET.angle);
    const section = sectorSection([outer - WALL + STAND_OFF, outer - INSET.skin], centre - BAR / 2, centre + BAR / 2);
    const from = stationAt({ path: whole, normal: start }, COLLAR / 2).normal;
    return sweepSection(partOfPath(whole, COLLAR / 2, 2 * reach - COLLAR / 2), from, section);
  });
  const label = barText(joint.name, whole, start, { outer, reach });
  const body = union(collar(0, before.piece.od), collar(2 * reach - COLLAR, after.piece.od), ...bars, ...label);
  const lines = [before.endLine, after.startLine].map((l) => directionInto(at, l));
  const notches = lines.map((line, i) =>
    notch(whole, carriedBack(whole, line, reach), {
      run: i === 0 ? 0 : 2 * reach,
      into: i === 0 ? 1 : -1,
      radius: outer,
    }),
  );
  return printedPart(
    {
      name,
      kind: 'clocking-ring',
      title: titleOf(joint, lengthWords(window, jig.units, 0)),
      solid: difference(body, ...notches),
      at,
      up: standing(whole),
      dropBelow: SLIVER,
      chamfer: jig.chamfer,
    },
    jig.bed,
  );
}

function titleOf({ name, before, after, clocking }: ClockedJoint, window: string): string {
  const degrees = ((clocking * 180) / Math.PI).toFixed(2);
  return (
    `Clocking ring for joint ${name}, from ${before.piece.name} to ${after.piece.name}: ${degrees} degrees from line to line, ` +
    `right-handed along the gas, ${window} free either side of the joint for tacks; ${COMES_OFF}`
  );
}

/** The normal at a path's start that becomes `normal` after `run` mm. */
function carriedBack(path: Path, normal: Vec3, run: number): Vec3 {
  return [...partOfPath(path, 0, run).segments]
    .reverse()
    .reduce<Vec3>((n, s) => (s.kind === 'bend' ? rotateAbout(n, s.normal, -s.angle) : n), normal);
}

/** The joint's name on the bar that lies clockwise of the middle. */
function barText(name: string, path: Path, start: Vec3, { outer, reach }: { outer: number; reach: number }): Solid[] {
  const aside = rotateAbout(start, headingAt(path, 0).direction, (WRAP - BAR) / 2 - INSET.angle);
  const radius = outer - INSET.skin;
  const width = radius * BAR;
  const place = { path, normal: aside, radius, run: reach };
  const text = curvedText([name], place, {
    height: Math.min(8, 0.6 * width),
    length: 2 * (reach - COLLAR),
    deep: WALL - STAND_OFF - INSET.skin,
  });
  return text === null ? [] : [text];
}

interface NotchPlace {
  readonly run: number;
  /** 1 where the collar lies down the path of its edge, -1 where it lies up. */
  readonly into: number;
  readonly radius: number;
}

/** A V in the outer edge of a collar, its point on the line that `normal` marks at the path's start. */
function notch(path: Path, normal: Vec3, { run, into, radius }: NotchPlace): Solid {
  const s = stationAt({ path, normal }, run);
  const corner = (r: number, across: number, deep: number): Vec3 =>
    along(onStation(s, [r, across]), scale(s.direction, into), deep);
  const { width, depth } = NOTCH;
  return hullOfPoints(
    [radius - WALL - 4, radius + 2].flatMap((r) => [
      corner(r, 0, depth),
      ...[width / 2, -width / 2].flatMap((w) => [corner(r, w, 0), corner(r, w, -2)]),
    ]),
  );
}

/** The ring stands on the edge of its first collar. */
const standing = (path: Path): Frame => frameFacing(WORLD.origin, headingAt(path, 0).direction, [0, 1, 0]);
