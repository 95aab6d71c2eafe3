import { carryNormal, headingAt, type Path, partOfPath, pathLength } from '../../../geometry/path.js';
import { placed, type Solid, union } from '../../../geometry/solid.js';
import { onStation, type Station } from '../../../geometry/sweep-section.js';
import { type Strokes, textSolid, textStrokes } from '../../../geometry/text-solid.js';
import { lerp2, type Vec2 } from '../../../geometry/vec2.js';
import { cross, distance, type Vec3 } from '../../../geometry/vec3.js';
import { RAISED } from '../tube-label.js';

/** Longest stroke written straight where the surface bends, mm. */
const SPAN = 4;

/** What strokes may leave between them where they meet at a hair's angle, mm3: hollows to be closed. */
export const SLIVER = 1e-3;

/** Least height of writing that a printer can draw, mm. */
const LEAST_HEIGHT = 4;

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

/** Room for writing: height wanted and length there is, mm. */
export interface WritingRoom {
  readonly height: number;
  readonly length: number;
}

/** The first of the texts that fits, raised on the skin along the path, reading the way of the path; null when none does. */
export function curvedText(texts: readonly string[], place: WritingPlace, room: WritingRoom): Solid | null {
  for (const text of texts) {
    for (let height = room.height; height >= LEAST_HEIGHT; height -= 0.5) {
      const strokes = textStrokes(text, height);
      if (strokes.width <= room.length) return written(strokes, place);
    }
  }
  return null;
}

function written(strokes: Strokes, place: WritingPlace): Solid {
  const half = strokes.height / 2;
  const sunk = place.radius - Math.sqrt(Math.max(0, place.radius ** 2 - half ** 2)) + 0.5;
  const stretch = distance(skinAt(place, place.run + 0.5), skinAt(place, place.run - 0.5));
  const spans = strokes.lines.flatMap((line) => line.slice(1).flatMap((q, i) => inSpans(line[i]!, q)));
  return union(
    ...spans.map(([p, q]) => {
      const x = (p[0] + q[0]) / 2;
      const s = stationAt(place, place.run + x / stretch);
      const shifted: Vec2[] = [
        [p[0] - x, p[1]],
        [q[0] - x, q[1]],
      ];
      return placed(textSolid({ ...strokes, lines: [shifted] }, -sunk, RAISED), {
        origin: onStation(s, [place.radius, 0]),
        x: s.direction,
        y: cross(s.normal, s.direction),
        z: s.normal,
      });
    }),
  );
}

function inSpans(p: Vec2, q: Vec2): [Vec2, Vec2][] {
  const n = Math.max(1, Math.ceil(Math.abs(q[0] - p[0]) / SPAN));
  if (Math.hypot(q[0] - p[0], q[1] - p[1]) < 1e-6) return [];
  return Array.from({ length: n }, (_, i) => [lerp2(p, q, i / n), lerp2(p, q, (i + 1) / n)]);
}

const skinAt = (place: WritingPlace, run: number): Vec3 => onStation(stationAt(place, run), [place.radius, 0]);

/** The station a run into a path, its normal carried there from the path's start. */
export function stationAt({ path, normal }: { readonly path: Path; readonly normal: Vec3 }, run: number): Station {
  const at = Math.min(Math.max(run, 0), pathLength(path));
  const carried = at > 1e-6 ? carryNormal(partOfPath(path, 0, at), normal) : normal;
  return { ...headingAt(path, at), normal: carried };
}
