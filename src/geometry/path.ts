import { LENGTH_TOLERANCE } from './tolerance.js';
import { along, angleBetween, cross, dot, length, rotateAbout, scale, sub, unit, type Vec3 } from './vec3.js';

/** A straight from a point along a unit direction, mm. */
export interface Straight {
  readonly kind: 'straight';
  /** Where it begins, mm. */
  readonly from: Vec3;
  /** Unit vector. */
  readonly direction: Vec3;
  /** Length, mm. */
  readonly length: number;
}

/** A circular arc: starts at `from` heading along the unit `direction`, turns by `angle` rad about the unit `normal` through `centre`. */
export interface Bend {
  readonly kind: 'bend';
  /** Where it begins, mm. */
  readonly from: Vec3;
  /** Unit vector along the path where it begins. */
  readonly direction: Vec3;
  /** Centre of the arc, mm. */
  readonly centre: Vec3;
  /** Unit vector of the axis it turns about, right-handed. */
  readonly normal: Vec3;
  /** Centreline radius, mm. */
  readonly clr: number;
  /** Bend angle, rad, in (0, 2 pi); beyond pi it stands for two intersection points. */
  readonly angle: number;
}

/** A piece of a path. */
export type PathSegment = Straight | Bend;

/** An exact path of straights and arcs, tangent-continuous. Straights and bends alternate; the first and last are straights. */
export interface Path {
  /** In order; each begins where the one before ends, in its direction. */
  readonly segments: readonly PathSegment[];
}

/** A path by the intersection points of its straights (XYZ): n points, n - 2 bends. */
export interface ControlPolygon {
  /** First point, intersection points, last point, mm. */
  readonly points: readonly Vec3[];
  /** Centreline radius at every inner point, mm; one fewer than points by two. */
  readonly clr: readonly number[];
}

/** Length of one segment, mm. Arc = R * angle. */
export const segmentLength = (s: PathSegment): number => (s.kind === 'straight' ? s.length : s.clr * s.angle);

/** Centreline length, mm: the closed sum of straights and arcs. */
export const pathLength = (path: Path): number => path.segments.reduce((sum, s) => sum + segmentLength(s), 0);

/** Distance from an intersection point to its tangent points: T = R tan(angle / 2), mm. */
export const tangentLength = (clr: number, angle: number): number => clr * Math.tan(angle / 2);

/** Bend angle at each inner point of a polygon, rad. */
export function bendAngles(points: readonly Vec3[]): number[] {
  const angles: number[] = [];
  for (let i = 1; i + 1 < points.length; i++) {
    angles.push(angleBetween(sub(points[i]!, points[i - 1]!), sub(points[i + 1]!, points[i]!)));
  }
  return angles;
}

/** Length of every straight of a polygon, mm; negative where the tangents of neighbouring bends overlap. */
export function straightLengths(polygon: ControlPolygon): number[] {
  const angles = bendAngles(polygon.points);
  const tangents = [0, ...angles.map((a, i) => tangentLength(polygon.clr[i]!, a)), 0];
  return tangents.slice(1).map((t, i) => length(sub(polygon.points[i + 1]!, polygon.points[i]!)) - tangents[i]! - t);
}

/** Centreline length of a polygon without building its path, mm. */
export function polygonLength(polygon: ControlPolygon): number {
  const angles = bendAngles(polygon.points);
  const straight = straightLengths(polygon).reduce((a, b) => a + b, 0);
  return angles.reduce((sum, a, i) => sum + polygon.clr[i]! * a, straight);
}

/**
 * The exact path of a control polygon. Points where the path does not turn (less than 1e-9 rad) vanish into one straight.
 * Throws RangeError when two points coincide, a bend turns back on itself, or tangents of neighbouring bends overlap by more
 * than 1e-6 mm. Two bends of one radius with nothing between them that turn the same way in one plane become one bend: so a U-bend,
 * whose straights need not meet, is given by two points.
 */
export function pathFromPolygon(polygon: ControlPolygon): Path {
  const turning = polygon.points.map(
    (_, i) => i === 0 || i === polygon.points.length - 1 || bendAt(polygon.points, i) > 1e-9,
  );
  const points = polygon.points.filter((_, i) => turning[i]);
  const clr = polygon.clr.filter((_, i) => turning[i + 1]);
  const straights = straightLengths({ points, clr });
  const segments: PathSegment[] = [];
  let at = points[0]!;
  for (let i = 0; i + 1 < points.length; i++) {
    const direction = unit(sub(points[i + 1]!, points[i]!));
    if (straights[i]! < -1e-6) {
      throw new RangeError(`bends overlap by ${(-straights[i]!).toFixed(3)} mm between points ${i} and ${i + 1}`);
    }
    segments.push({ kind: 'straight', from: at, direction, length: Math.max(0, straights[i]!) });
    if (i + 2 >= points.length) break;
    const angle = bendAt(points, i + 1);
    if (angle > Math.PI - 1e-6) throw new RangeError(`the path turns back on itself at point ${i + 1}`);
    const out = unit(sub(points[i + 2]!, points[i + 1]!));
    const normal = unit(cross(direction, out));
    const radius = clr[i]!;
    const from = along(points[i + 1]!, direction, -tangentLength(radius, angle));
    segments.push({
      kind: 'bend',
      from,
      direction,
      normal,
      clr: radius,
      angle,
      centre: along(from, cross(normal, direction), radius),
    });
    at = along(points[i + 1]!, out, tangentLength(radius, angle));
  }
  return { segments: joinBends(segments) };
}

/** What the halves of one bend may differ by, mm and rad: far below what an end of the path would show. */
const ONE_BEND = 1e-9;

/** Bends with the same centre, radius and plane and no straight between them made one. */
function joinBends(segments: readonly PathSegment[]): PathSegment[] {
  const joined: PathSegment[] = [];
  for (const s of segments) {
    const between = joined[joined.length - 1];
    const before = joined[joined.length - 2];
    const one =
      s.kind === 'bend' &&
      before?.kind === 'bend' &&
      between?.kind === 'straight' &&
      between.length < ONE_BEND &&
      Math.abs(s.clr - before.clr) < ONE_BEND &&
      dot(s.normal, before.normal) > 0 &&
      length(cross(s.normal, before.normal)) < ONE_BEND;
    if (one) joined.splice(-2, 2, { ...before, angle: before.angle + s.angle });
    else joined.push(s);
  }
  return joined;
}

function bendAt(points: readonly Vec3[], i: number): number {
  return angleBetween(sub(points[i]!, points[i - 1]!), sub(points[i + 1]!, points[i]!));
}

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

/** Point and unit direction of travel. */
export interface Heading {
  readonly point: Vec3;
  readonly direction: Vec3;
}

/** Point a given run, in mm, into a segment. */
export function pointIn(s: PathSegment, run: number): Vec3 {
  if (s.kind === 'straight') return along(s.from, s.direction, run);
  const angle = run / s.clr;
  const out = sub(s.from, s.centre);
  return along(along(s.centre, out, Math.cos(angle)), s.direction, s.clr * Math.sin(angle));
}

/** Point and direction a given run, in mm, into a segment. */
export function headingIn(s: PathSegment, run: number): Heading {
  if (s.kind === 'straight') return { point: pointIn(s, run), direction: s.direction };
  return { point: pointIn(s, run), direction: rotateAbout(s.direction, s.normal, run / s.clr) };
}

/** Point and direction at a running length from the start, mm; clamped to the path's ends. */
export function headingAt(path: Path, run: number): Heading {
  let left = Math.max(0, run);
  for (const s of path.segments) {
    const l = segmentLength(s);
    if (left <= l) return headingIn(s, left);
    left -= l;
  }
  return endOf(path);
}

/** Point and direction at the start of a path. */
export const startOf = (path: Path): Heading => headingIn(path.segments[0]!, 0);

/** Point and direction at the end of a path. */
export function endOf(path: Path): Heading {
  const last = path.segments[path.segments.length - 1]!;
  return headingIn(last, segmentLength(last));
}

/** The part of a path between two running lengths, mm. Segments shorter than 1e-9 mm are left out. Throws RangeError for an empty part. */
export function partOfPath(path: Path, fromRun: number, toRun: number): Path {
  const segments: PathSegment[] = [];
  let run = 0;
  for (const s of path.segments) {
    const l = segmentLength(s);
    const a = Math.max(fromRun - run, 0);
    const b = Math.min(toRun - run, l);
    run += l;
    if (b - a <= LENGTH_TOLERANCE) continue;
    const start = headingIn(s, a);
    segments.push(
      s.kind === 'straight'
        ? { ...s, from: start.point, length: b - a }
        : { ...s, from: start.point, direction: start.direction, angle: (b - a) / s.clr },
    );
  }
  if (segments.length === 0) throw new RangeError(`no path between ${fromRun} mm and ${toRun} mm`);
  return { segments };
}

/** A unit normal carried along the path without twist: in a bend it turns with the path, on a straight it stays. */
export function carryNormal(path: Path, normal: Vec3): Vec3 {
  return path.segments.reduce<Vec3>((n, s) => (s.kind === 'bend' ? rotateAbout(n, s.normal, s.angle) : n), normal);
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
