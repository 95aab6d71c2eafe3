import { along, angleBetween, cross, dot, length, sub, unit, type Vec3 } from '../vec3.js';
import type { Path, PathSegment } from './path.js';

/** A path by the intersection points of its straights (XYZ): n points, n - 2 bends. */
export interface ControlPolygon {
  /** First point, intersection points, last point, mm. */
  readonly points: readonly Vec3[];
  /** Centreline radius at every inner point, mm; one fewer than points by two. */
  readonly clr: readonly number[];
}

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
