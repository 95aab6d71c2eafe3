import {
  type Bend,
  carryNormal,
  headingAt,
  type Path,
  partOfPath,
  pathLength,
  segmentLength,
} from '../../../geometry/path/path.js';
import { placed, type Solid } from '../../../geometry/solid/solid.js';
import { textSolid, textStrokes } from '../../../geometry/solid/text-solid.js';
import { onStation, type Station } from '../../../geometry/sweep/sweep-section.js';
import { cross, dot, sub, unit, type Vec3 } from '../../../geometry/vec3.js';
import { RAISED } from '../printed-writing.js';

/** What writing may leave where it meets a skin at a hair's angle, mm3: hollows to be closed. */
export const SLIVER = 1e-3;

/** Least height of writing that a printer can draw, mm. */
const LEAST_HEIGHT = 4;

/** Most that a skin may bend away from the writing, or towards it, over its length, mm. */
const MOST_SAG = 1.5;

/** The skin of a bent tube as something to write on. */
export interface WritingPlace {
  readonly path: Path;
  /** At the path's start, unit: carried along, it is where the writing stands. */
  readonly normal: Vec3;
  /** Of the skin, mm. */
  readonly radius: number;
  /** Middle of the writing, mm along the path. */
  readonly run: number;
}

/** Room for writing: height wanted, length there is and how far it may go below the skin, mm. */
export interface WritingRoom {
  readonly height: number;
  readonly length: number;
  readonly deep: number;
}

/**
 * The first of the texts that fits, flat, raised over the skin of a tube, reading the way of the path; null when none does. Where
 * the skin bends away from it the writing goes deeper, where it bends towards it the writing stands higher.
 */
export function curvedText(texts: readonly string[], place: WritingPlace, room: WritingRoom): Solid | null {
  const s = stationAt(place, place.run);
  for (const text of texts) {
    for (let height = room.height; height >= LEAST_HEIGHT; height -= 0.5) {
      const strokes = textStrokes(text, height);
      const { rise, aside } = bendOfSkin(place, s, strokes.width / 2);
      const off = strokes.height / 2 + aside;
      if (strokes.width > room.length || Math.abs(rise) > MOST_SAG || off > 0.7 * place.radius) continue;
      const sunk = place.radius - Math.sqrt(place.radius ** 2 - off * off) + Math.max(0, -rise) + 0.5;
      if (sunk > room.deep) continue;
      return placed(textSolid(strokes, -sunk, RAISED + Math.max(0, rise)), {
        origin: onStation(s, [place.radius, 0]),
        x: s.direction,
        y: cross(s.normal, s.direction),
        z: s.normal,
      });
    }
  }
  return null;
}

/** How far the skin has risen towards the writing (negative: fallen away), and moved aside, `half` mm along it from its middle, mm. */
function bendOfSkin({ path, run, radius }: WritingPlace, s: Station, half: number): { rise: number; aside: number } {
  const bend = bendAt(path, run);
  if (bend === null) return { rise: 0, aside: 0 };
  const inwards = dot(unit(sub(bend.centre, s.point)), s.normal);
  const sag = (half * half) / (2 * (bend.clr - radius * inwards));
  return { rise: sag * inwards, aside: sag * Math.sqrt(Math.max(0, 1 - inwards * inwards)) };
}

/** The bend a run lies in or at the end of; null on a straight. */
function bendAt(path: Path, run: number): Bend | null {
  let from = 0;
  for (const s of path.segments) {
    const to = from + segmentLength(s);
    if (s.kind === 'bend' && run >= from - 1e-6 && run <= to + 1e-6) return s;
    from = to;
  }
  return null;
}

/** The station a run into a path, its normal carried there from the path's start. */
export function stationAt({ path, normal }: { readonly path: Path; readonly normal: Vec3 }, run: number): Station {
  const at = Math.min(Math.max(run, 0), pathLength(path));
  const carried = at > 1e-6 ? carryNormal(partOfPath(path, 0, at), normal) : normal;
  return { ...headingAt(path, at), normal: carried };
}
