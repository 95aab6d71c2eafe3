import { bendAngles } from '../../geometry/path/control-polygon.js';
import { lraFromPolygon } from '../../geometry/path/lra.js';
import type { Path } from '../../geometry/path/path.js';
import { angleBetween, cross, distance, length, signedAngle, sub, unit, type Vec3 } from '../../geometry/vec3.js';
import type { RoutedTube } from '../../routing/routed.js';

/** A tube by its straights and bends alone, wherever it stands. mm and rad. */
export interface TubeShape {
  /** One more than bends. */
  readonly straights: readonly number[];
  readonly angles: readonly number[];
  readonly arcs: readonly number[];
  /** Turn of each bend's plane against that of the bend before, right-handed along the gas; null at the first and where it is not known. */
  readonly turns: readonly (number | null)[];
}

/** Centreline length, mm. */
export const shapeLength = ({ straights, arcs }: TubeShape): number =>
  [...straights, ...arcs].reduce((a, b) => a + b, 0);

/** The shape of a route. */
export function shapeOfPath({ segments }: Path): TubeShape {
  const bends = segments.filter((s) => s.kind === 'bend');
  return {
    straights: segments.flatMap((s) => (s.kind === 'straight' ? [s.length] : [])),
    angles: bends.map((b) => b.angle),
    arcs: bends.map((b) => b.clr * b.angle),
    turns: bends.map((b, k) => (k === 0 ? null : signedAngle(bends[k - 1]!.normal, b.normal, b.direction))),
  };
}

/**
 * The shape of a tube by its measured intersection points, as many as the route has, and the radius at each inner one. Points that are
 * halves of one bend of the route count as one bend. Throws RangeError when two points are one.
 */
export function shapeFromIntersections(points: readonly Vec3[], clr: readonly number[], route: RoutedTube): TubeShape {
  const { rows, lastStraight } = lraFromPolygon({ points, clr });
  const bendAt = bendOfPoints(route);
  const count = Math.max(-1, ...bendAt.map((k) => k ?? -1)) + 1;
  const straights = Array.from({ length: count + 1 }, () => 0);
  const angles = Array.from({ length: count }, () => 0);
  const arcs = Array.from({ length: count }, () => 0);
  const turns: (number | null)[] = Array.from({ length: count }, () => null);
  let passed = -1;
  rows.forEach((row, i) => {
    const k = bendAt[i] ?? null;
    const half = k !== null && k === passed;
    if (half) arcs[k] = arcs[k]! + row.straight;
    else straights[passed + 1] = straights[passed + 1]! + row.straight;
    if (k === null) {
      straights[passed + 1] = straights[passed + 1]! + row.clr * row.angle;
      return;
    }
    if (!half && passed >= 0 && bendAt[i - 1] === passed) turns[k] = row.rotation;
    angles[k] = angles[k]! + row.angle;
    arcs[k] = arcs[k]! + row.clr * row.angle;
    passed = k;
  });
  straights[passed + 1] = straights[passed + 1]! + lastStraight;
  return { straights, angles, arcs, turns };
}

/** Which bend of the route each inner point of its polygon belongs to; null where the route does not turn. */
function bendOfPoints({ polygon, path }: RoutedTube): (number | null)[] {
  const angles = shapeOfPath(path).angles;
  let k = 0;
  let left = angles[0] ?? 0;
  return bendAngles(polygon.points).map((angle) => {
    if (angle < 1e-9 || k >= angles.length) return null;
    const own = k;
    left -= angle;
    if (left < 1e-6) {
      k++;
      left = angles[k] ?? 0;
    }
    return own;
  });
}

/** Straights shorter than this have no direction that can be measured, mm. */
const LEAST_MEASURED_STRAIGHT = 1;

/**
 * The shape of a tube by both ends of every straight, two points each. A bend's angle is that between its straights, its radius
 * follows from its chord: chord = 2 R sin(angle / 2). `route` tells bends beyond half a turn from those below. Throws RangeError where
 * a straight is too short to have a direction.
 */
export function shapeFromTangents(points: readonly Vec3[], route: TubeShape): TubeShape {
  const pairs = Array.from({ length: points.length / 2 }, (_, i) => [points[2 * i]!, points[2 * i + 1]!] as const);
  const straights = pairs.map(([a, b]) => distance(a, b));
  const short = straights.findIndex((s) => s < LEAST_MEASURED_STRAIGHT);
  if (short >= 0) throw new RangeError(`straight ${short + 1} is too short to have a direction`);
  const ways = pairs.map(([a, b]) => unit(sub(b, a)));
  const chords = ways.slice(1).map((_, k) => sub(pairs[k + 1]![0], pairs[k]![1]));
  const normals = chords.map((chord, k) => cross(ways[k]!, chord));
  const angles = chords.map((_, k) => {
    const turn = angleBetween(ways[k]!, ways[k + 1]!);
    return route.angles[k]! > Math.PI ? 2 * Math.PI - turn : turn;
  });
  const arcs = chords.map((chord, k) => {
    const half = angles[k]! / 2;
    return length(chord) * (half === 0 ? 1 : half / Math.sin(half));
  });
  const turns = normals.map((n, k) => (k === 0 ? null : signedAngle(normals[k - 1]!, n, ways[k]!)));
  return { straights, angles, arcs, turns };
}
