import { type ControlPolygon, tangentLength } from '../../src/geometry/path/control-polygon.js';
import { type Bend, endOf, headingIn, type Path, segmentLength } from '../../src/geometry/path/path.js';
import { along, angleBetween, dot, length, scale, sub, type Vec3 } from '../../src/geometry/vec3.js';

/** A bend beyond this angle, rad, is given by two points: its tangents would meet far away or not at all. */
const U_BEND = 2.8;

/** The control polygon of a path. */
export function polygonFromPath(path: Path): ControlPolygon {
  const first = path.segments[0]!;
  const points: Vec3[] = [first.from];
  const clr: number[] = [];
  for (const s of path.segments) {
    if (s.kind !== 'bend') continue;
    const halves = s.angle > U_BEND ? 2 : 1;
    for (let i = 0; i < halves; i++) {
      const angle = s.angle / halves;
      const { point, direction } = headingIn(s, i * s.clr * angle);
      points.push(along(point, direction, tangentLength(s.clr, angle)));
      clr.push(s.clr);
    }
  }
  points.push(endOf(path).point);
  return { points, clr };
}

/** The same path run backwards. */
export function reversePath(path: Path): Path {
  return {
    segments: [...path.segments].reverse().map((s) => {
      const end = headingIn(s, segmentLength(s));
      const back = scale(end.direction, -1);
      return s.kind === 'straight'
        ? { ...s, from: end.point, direction: back }
        : { ...s, from: end.point, direction: back, normal: scale(s.normal, -1) };
    }),
  };
}

/** Largest gap in place (mm) and in direction (rad) where neighbouring segments meet: 0 for a sound path. */
export function pathGaps(path: Path): { readonly place: number; readonly direction: number } {
  let place = 0;
  let direction = 0;
  for (let i = 0; i + 1 < path.segments.length; i++) {
    const end = headingIn(path.segments[i]!, segmentLength(path.segments[i]!));
    const start = headingIn(path.segments[i + 1]!, 0);
    place = Math.max(place, length(sub(end.point, start.point)));
    direction = Math.max(direction, angleBetween(end.direction, start.direction));
  }
  return { place, direction };
}

/** True when a bend's centre, radius and direction agree within tolerance: a guard for paths built elsewhere. */
export function bendIsSound(bend: Bend, tolerance = 1e-6): boolean {
  const spoke = sub(bend.from, bend.centre);
  return (
    Math.abs(length(spoke) - bend.clr) < tolerance &&
    Math.abs(dot(spoke, bend.direction)) < tolerance * bend.clr &&
    Math.abs(dot(spoke, bend.normal)) < tolerance * bend.clr
  );
}
