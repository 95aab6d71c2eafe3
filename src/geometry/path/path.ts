import { LENGTH_TOLERANCE } from '../tolerance.js';
import { along, rotateAbout, sub, type Vec3 } from '../vec3.js';

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

/** Length of one segment, mm. Arc = R * angle. */
export const segmentLength = (s: PathSegment): number => (s.kind === 'straight' ? s.length : s.clr * s.angle);

/** Centreline length, mm: the closed sum of straights and arcs. */
export const pathLength = (path: Path): number => path.segments.reduce((sum, s) => sum + segmentLength(s), 0);

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
