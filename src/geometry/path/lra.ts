import { frameAlong } from '../frame.js';
import { along, cross, length, rotateAbout, signedAngle, sub, unit, type Vec3 } from '../vec3.js';
import type { ControlPolygon } from './control-polygon.js';
import { bendAngles, straightLengths, tangentLength } from './control-polygon.js';

/** One row of a bender's table: feed, turn the tube, bend. */
export interface LraRow {
  /** Straight before the bend, mm. */
  readonly straight: number;
  /**
   * Rotation of the bend plane against that of the bend before, rad in (-pi, pi], right-handed about the direction of travel:
   * positive is clockwise as seen looking along the flow. 0 at the first bend.
   */
  readonly rotation: number;
  /** Bend angle, rad. */
  readonly angle: number;
  /** Centreline radius, mm. */
  readonly clr: number;
}

/** A tube as LRA: its rows and the straight after the last bend, mm. */
export interface Lra {
  /** One for each bend, in order. */
  readonly rows: readonly LraRow[];
  /** Straight after the last bend, mm. */
  readonly lastStraight: number;
}

/** Where and how a tube given as LRA stands: start, unit direction, and the unit normal of its first bend plane. */
export interface LraStart {
  readonly point: Vec3;
  readonly direction: Vec3;
  readonly normal: Vec3;
}

/**
 * Straights, rotations and bend angles of a control polygon.
 * Rotation is the signed angle between successive bend-plane normals about the straight between them (identity of the trade).
 */
export function lraFromPolygon(polygon: ControlPolygon): Lra {
  const { points, clr } = polygon;
  const angles = bendAngles(points);
  const straights = straightLengths(polygon);
  const legs = points.slice(1).map((p, i) => unit(sub(p, points[i]!)));
  const normals = angles.map((_, i) => cross(legs[i]!, legs[i + 1]!));
  const rows = angles.map((angle, i) => ({
    straight: straights[i]!,
    rotation: i === 0 ? 0 : signedAngle(normals[i - 1]!, normals[i]!, legs[i]!),
    angle,
    clr: clr[i]!,
  }));
  return { rows, lastStraight: straights[straights.length - 1]! };
}

/** Normal of the first bend plane of a polygon; for a straight tube any perpendicular. */
export function firstNormal(points: readonly Vec3[]): Vec3 {
  const a = unit(sub(points[1]!, points[0]!));
  if (points.length < 3) return frameAlong(points[0]!, a).x;
  const n = cross(a, sub(points[2]!, points[1]!));
  return length(n) > 0 ? unit(n) : frameAlong(points[0]!, a).x;
}

/** The control polygon of a tube given as LRA from a start: the inverse of `lraFromPolygon`. */
export function polygonFromLra(lra: Lra, start: LraStart): ControlPolygon {
  const points: Vec3[] = [start.point];
  let { point, direction, normal } = start;
  let tangentBefore = 0;
  for (const row of lra.rows) {
    const tangent = tangentLength(row.clr, row.angle);
    point = along(point, direction, tangentBefore + row.straight + tangent);
    points.push(point);
    normal = rotateAbout(normal, direction, row.rotation);
    direction = rotateAbout(direction, normal, row.angle);
    tangentBefore = tangent;
  }
  points.push(along(point, direction, tangentBefore + lra.lastStraight));
  return { points, clr: lra.rows.map((r) => r.clr) };
}
