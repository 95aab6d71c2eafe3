import { type Frame, WORLD } from '../../../geometry/frame.js';
import { endOf, type Path, partOfPath, pathLength, startOf } from '../../../geometry/path/path.js';
import { difference, hullOfPoints, placed, type Solid, trimmed, union } from '../../../geometry/solid/solid.js';
import { circlePoints, prism } from '../../../geometry/solid/solid-shapes.js';
import { textSolid, textStrokes } from '../../../geometry/solid/text-solid.js';
import { onStation, type Station, stationsOf } from '../../../geometry/sweep/sweep-section.js';
import { add2, rotate2, type Vec2 } from '../../../geometry/vec2.js';
import { along, dot, unit, type Vec3 } from '../../../geometry/vec3.js';
import type { BenchPlan, JigPlan } from '../../../params/plan.js';
import type { SolidPart } from '../../part.js';
import { printedPart } from '../../printed-part.js';
import { ENGRAVED } from '../printed-writing.js';
import { holeName } from './base-plate.js';
import { COMES_OFF } from './bench-caution.js';
import { SADDLE_FOOT } from './saddle-place.js';
import { across, postCorners, type SaddlePlace } from './saddle-post.js';

/** Chord error of a seat, mm: finer than what is seen, because a tube's place rests on it. */
const SEAT_ERROR = 0.02;

/** What a saddle is called and where it stands. */
export interface SaddleName {
  readonly file: string;
  /** From 1 within its tube. */
  readonly number: number;
  /** The plate's top in the world; column and row 0 at the origin. */
  readonly at: Frame;
}

/**
 * A saddle: a foot with two holes over holes of the base plate, a post, and on it a seat for the lower half of the tube. The bore
 * is wider than the tube by the fit on either side and lower by nothing: the tube rests on the bottom of its seat at its true height.
 * Everything over the seat is open, so the tube lifts straight out. Before and behind the post stand the names of its piece and hole.
 */
export function saddle(
  place: SaddlePlace,
  path: Path,
  { file, number, at }: SaddleName,
  bench: BenchPlan,
  jig: JigPlan,
): SolidPart {
  const [front, back] = place.holes.map(holeName);
  return printedPart(
    {
      name: `saddle-${file}-${number}`,
      kind: 'bench-saddle',
      title: `Saddle ${number} of its tube, under piece ${place.piece}, on holes ${front} and ${back} of the base plate; ${COMES_OFF}`,
      solid: saddleSolid(place, path, bench, jig.fit),
      at,
      up: WORLD,
      chamfer: jig.chamfer,
    },
    jig.bed,
  );
}

/** The saddle over the plate's top. `path` is the whole tube over the plate. */
function saddleSolid(place: SaddlePlace, path: Path, bench: BenchPlan, fit: number): Solid {
  const { point, direction, foot, holes, radius } = place;
  const top = point[2] + radius;
  const post = prism(postCorners(place), 0, top);
  // square to the tube and upwards
  const up = unit(along([0, 0, 1], direction, -direction[2]));
  const half = trimmed(post, { point, normal: [-up[0], -up[1], -up[2]] });
  const body = union(prism(foot, 0, SADDLE_FOOT), half);
  return difference(
    body,
    seat(place, path, up, fit),
    ...holes.map(([i, j]) => boltHole([i * bench.base.pitch, j * bench.base.pitch], bench.base.hole)),
    ...[0, 1].map((k) => label(place, k)).filter((s) => s !== null),
  );
}

/** The tube's way in from above: its skin, widened by the fit and set up by as much, together with all that is over it. */
function seat({ run, direction, radius, halfLength }: SaddlePlace, path: Path, up: Vec3, fit: number): Solid {
  const bore = radius + fit;
  const flat = Math.hypot(direction[0], direction[1]);
  const reach = ((halfLength + bore * Math.abs(direction[2])) / flat + 2) * shortening(path, bore);
  const part = stretched(path, run - reach, run + reach);
  const lifted = along([0, 0, 0], up, fit);
  const chords = circlePoints(bore, SEAT_ERROR, 'chords-outside');
  const turn = Math.PI / chords.length;
  // a chord's middle, not a corner, is at the bottom
  const ring = chords.map((p) => rotate2(p, Math.cos(turn), Math.sin(turn)));
  const at = (s: Station): Vec3[] => {
    const normal = unit(along(up, s.direction, -dot(up, s.direction)));
    return ring.map((p) => along(onStation({ ...s, normal }, p), lifted, 1));
  };
  const stations = stationsOf(part, up, bore, SEAT_ERROR);
  return union(
    ...stations.slice(1).map((s, i) => {
      const two = [...at(stations[i]!), ...at(s)];
      return hullOfPoints([...two, ...two.map((p): Vec3 => [p[0], p[1], p[2] + 4 * bore])]);
    }),
  );
}

/** How much longer the centreline of the tightest bend is than its inside, `reach` mm nearer to the centre. */
function shortening(path: Path, reach: number): number {
  const most = path.segments.map((s) => (s.kind === 'bend' ? s.clr / Math.max(s.clr - reach, s.clr / 4) : 1));
  return Math.max(...most);
}

/** The part of a path between two runs, drawn out straight beyond its ends. */
function stretched(path: Path, from: number, to: number): Path {
  const length = pathLength(path);
  const inner = partOfPath(path, Math.max(0, from), Math.min(length, to));
  const [start, end] = [startOf(inner), endOf(inner)];
  const before = {
    kind: 'straight' as const,
    from: along(start.point, start.direction, Math.min(0, from)),
    direction: start.direction,
    length: Math.max(0, -from),
  };
  const after = {
    kind: 'straight' as const,
    from: end.point,
    direction: end.direction,
    length: Math.max(0, to - length),
  };
  return { segments: [before, ...inner.segments, after].filter((s) => s.kind === 'bend' || s.length > 1e-9) };
}

const boltHole = (at: Vec2, diameter: number): Solid =>
  prism(
    circlePoints(diameter / 2, undefined, 'chords-outside').map((p) => add2(p, at)),
    -1,
    SADDLE_FOOT + 1,
  );

/** Names of piece and hole in the post's face over the foot: 0 before it as the gas goes, 1 behind. Null where there is no room. */
function label(place: SaddlePlace, k: number): Solid | null {
  const { point, level, halfLength, halfWidth, radius, direction } = place;
  const out: Vec2 = k === 0 ? level : [-level[0], -level[1]];
  // the seat falls off towards the lower side of a slope
  const seatLow = point[2] - radius / Math.hypot(direction[0], direction[1]) - halfLength * Math.abs(direction[2]);
  const room = seatLow - SADDLE_FOOT - 3;
  const text = `${place.piece} ${holeName(place.holes[k]!)}`;
  for (let height = Math.min(9, room); height >= 4; height -= 0.5) {
    const strokes = textStrokes(text, height);
    if (strokes.width > 2 * halfWidth - 3) continue;
    const [x, y] = add2([point[0], point[1]], [out[0] * halfLength, out[1] * halfLength]);
    const along2 = across(out);
    return placed(textSolid(strokes, -ENGRAVED, 1), {
      origin: [x, y, SADDLE_FOOT + 1.5 + room / 2],
      x: [along2[0], along2[1], 0],
      y: [0, 0, 1],
      z: [out[0], out[1], 0],
    });
  }
  return null;
}
