import { directionInto, type Frame, frameFacing, pointInto, WORLD } from '../../../geometry/frame.js';
import { type Bend, endOf, type Path, pathLength, startOf } from '../../../geometry/path/path.js';
import { pathInto } from '../../../geometry/path/placed.js';
import type { Plane } from '../../../geometry/plane.js';
import { difference, hullOfPoints, type Solid, solidOf, trimmed, union } from '../../../geometry/solid/solid.js';
import { sweepRound } from '../../../geometry/sweep/sweep.js';
import { onStation, sectorSection, sweepSection } from '../../../geometry/sweep/sweep-section.js';
import { CHORD_ERROR } from '../../../geometry/tolerance.js';
import { along, angleBetween, cross, scale, type Vec3 } from '../../../geometry/vec3.js';
import { lengthWords } from '../../../params/faults/wording.js';
import type { JigPlan } from '../../../params/plan.js';
import type { SolidPart } from '../../part.js';
import { printedPart } from '../../printed-part.js';
import type { Piece } from '../../tube/pieces.js';
import { COMES_OFF } from './bench-caution.js';
import { curvedText, SLIVER, stationAt } from './curved-text.js';

/** Wall of a sleeve, mm, and the gap between its halves, which lets them close on a tube that came out small. Our own. */
const WALL = 3;
const PARTING = 0.6;

/** Width and depth of the notch at the outside line, mm. */
const NOTCH = { width: 5, depth: 4 } as const;

/** A sleeve shorter than this over the tube's diameter does not lie true on a bend. Our own. */
const LEAST_LENGTH = 0.4;

/** A bent piece and, where it is the tube's first, the flange's face its start is cut along: world, normal away from the head. */
export interface SleevedPiece {
  readonly piece: Piece;
  readonly face: Plane | null;
}

/** Sleeves, and the pieces that are too short for one. */
export interface ScribingSleeves {
  readonly parts: readonly SolidPart[];
  readonly notes: readonly string[];
}

/**
 * A pair of half shells for every bent piece that differs: from cut to cut, legs included, the bore the true bend. Laid on longer
 * stock from either side of the bend's plane, both edges lie in the planes of the cuts, so both are scribed at once without any
 * angle to be measured. A short sleeve that serves all angles would need the place of each cut to be measured first, and a
 * closed one could not be brought past a straight leg. Pieces of one size share a sleeve.
 */
export function scribingSleeves(pieces: readonly SleevedPiece[], jig: JigPlan): ScribingSleeves {
  const alike = new Map<string, SleevedPiece[]>();
  const notes: string[] = [];
  for (const p of pieces.filter((s) => s.piece.kind === 'bend')) {
    const { od, name, path } = p.piece;
    if (pathLength(path) < LEAST_LENGTH * od) {
      notes.push(
        `piece ${name}: ${lengthWords(pathLength(path), jig.units, 1)} is too short for a scribing sleeve; scribe it with a wrap`,
      );
      continue;
    }
    if (path.segments.some((s) => s.kind === 'bend' && s.clr <= od / 2 + jig.fit + WALL)) {
      notes.push(`piece ${name}: its bend is too tight for a scribing sleeve; scribe it with a wrap`);
      continue;
    }
    const key = shapeOf(p);
    alike.set(key, [...(alike.get(key) ?? []), p]);
  }
  return { parts: [...alike.values()].flatMap((same) => sleeveOf(same, jig)), notes };
}

/** Everything a sleeve's shape depends on, to a micrometre and a microradian. */
function shapeOf({ piece, face }: SleevedPiece): string {
  const sides = piece.path.segments.map((s) =>
    s.kind === 'straight' ? `leg ${s.length.toFixed(3)}` : `bend ${s.clr.toFixed(3)} ${s.angle.toFixed(6)}`,
  );
  const own = localOf(piece);
  const tilt =
    face === null
      ? ''
      : directionInto(own.at, face.normal)
          .map((v) => v.toFixed(6))
          .join(' ');
  return [piece.od.toFixed(3), ...sides, tilt.replaceAll('-0.000000', '0.000000')].join(', ');
}

interface Local {
  readonly at: Frame;
  readonly path: Path;
  readonly bend: Bend;
}

/** The piece with its start at the origin along z and the bend's normal as y, so that the bend turns about y. */
function localOf(piece: Piece): Local {
  const bend = piece.path.segments.find((s): s is Bend => s.kind === 'bend')!;
  const { point, direction } = startOf(piece.path);
  const at = frameFacing(point, direction, bend.normal);
  const path = pathInto(at, piece.path);
  return { at, path, bend: path.segments.find((s): s is Bend => s.kind === 'bend')! };
}

function sleeveOf(same: readonly SleevedPiece[], jig: JigPlan): SolidPart[] {
  const { piece, face } = same[0]!;
  const local = localOf(piece);
  const names = same.map((s) => s.piece.name);
  return [1, -1].map((side, i) =>
    printedPart(
      {
        name: `sleeve-${piece.file}-${i + 1}`,
        kind: 'scribing-sleeve',
        title: `Scribing sleeve, half ${i + 1} of 2, for ${names.length === 1 ? 'piece' : 'pieces'} ${names.join(', ')}: keep what is under it, scribe along both edges; ${COMES_OFF}`,
        solid: halfShell({ piece, face }, local, names[0]!, side, jig.fit),
        at: local.at,
        up: frameFacing(WORLD.origin, scale(local.bend.normal, side), [0, 0, 1]),
        dropBelow: SLIVER,
        chamfer: jig.chamfer,
      },
      jig.bed,
    ),
  );
}

/** One half: `side` 1 lies on the side of the bend's plane its normal points to. */
function halfShell(
  { piece, face }: SleevedPiece,
  { at, path, bend }: Local,
  name: string,
  side: number,
  fit: number,
): Solid {
  const bore = piece.od / 2 + fit;
  const outer = bore + WALL;
  const up = scale(bend.normal, side);
  const square: Plane = { point: startOf(path).point, normal: startOf(path).direction };
  const start = face ? { point: pointInto(at, face.point), normal: directionInto(at, face.normal) } : square;
  const tilt = angleBetween(square.normal, start.normal);
  const long = tilt > 1e-9 ? begunEarlier(path, outer * Math.tan(tilt) + 1) : path;
  // the bore's corners stand outside the true bore, so that its facets do not bind
  const inner = bore + CHORD_ERROR;
  const shell = sweepSection(long, up, sectorSection([inner, outer], -Math.PI / 2, Math.PI / 2));
  const texts = [`> KEEP ${name} <`, `> ${name} <`, name];
  const text = curvedText(
    texts,
    { path, normal: up, radius: outer, run: pathLength(path) / 2 },
    {
      height: Math.min(8, piece.od / 4),
      length: pathLength(path) - 6,
      deep: bore,
    },
  );
  // writing that goes deep where the shell bends away sideways must not come out inside
  const body = text === null ? shell : union(shell, difference(text, solidOf(sweepRound(path, inner + WALL / 4))));
  const cut = tilt > 1e-9 ? trimmed(body, start) : body;
  const parted = trimmed(cut, { point: along(startOf(path).point, up, PARTING / 2), normal: up });
  const outside = cross(startOf(path).direction, bend.normal);
  const notches = [start.normal, scale(endOf(path).direction, -1)].map((into, k) =>
    notch(path, outside, k === 0 ? 0 : pathLength(path), { inner, outer, into }),
  );
  return difference(parted, ...notches);
}

/** The path with a straight before it. */
function begunEarlier(path: Path, by: number): Path {
  const { point, direction } = startOf(path);
  return {
    segments: [{ kind: 'straight', from: along(point, direction, -by), direction, length: by }, ...path.segments],
  };
}

interface NotchPlace {
  readonly inner: number;
  readonly outer: number;
  /** Unit, from the edge into the sleeve. */
  readonly into: Vec3;
}

/** A V in the edge whose point is on the outside line: a scriber drawn through both carries the line onto the tube. */
function notch(path: Path, outside: Vec3, run: number, { inner, outer, into }: NotchPlace): Solid {
  const s = stationAt({ path, normal: outside }, run);
  const corner = (radius: number, across: number, deep: number): Vec3 =>
    along(onStation(s, [radius, across]), into, deep);
  const { width, depth } = NOTCH;
  return hullOfPoints(
    [inner - 2, outer + 2].flatMap((r) => [
      corner(r, 0, depth),
      corner(r, width / 2, -0.01 * depth),
      corner(r, -width / 2, -0.01 * depth),
      corner(r, width / 2, -4),
      corner(r, -width / 2, -4),
    ]),
  );
}
