import { radians, wrapTwoPi } from '../angle.js';
import { splinePoints } from '../curve/spline.js';
import { circleOutline } from '../outline/make.js';
import { arcAbout, type Side, sidesOf } from '../outline/sides.js';
import type { Vec2 } from '../vec2.js';
import type { DxfEntityTags } from './file.js';
import { bounded, neededAt, numberAt, pointAt, refuseTilted, seenFromBelow } from './groups.js';

/** Sides in the unit asked for, whether they close, and how far they may lie from the true curve. */
export interface Drawn {
  readonly sides: readonly Side[];
  readonly closed: boolean;
  readonly error: number;
}

/** How an entity is read: the factor from its unit to mm, how near sampled curves are followed, mm, and by how many points at most. */
export interface Reading {
  readonly scale: number;
  readonly error: number;
  readonly most: number;
}

const scaled = (p: Vec2, k: number): Vec2 => [p[0] * k, p[1] * k];

/** Lines through points in order. */
const linesThrough = (points: readonly Vec2[]): Side[] =>
  points.slice(1).map((to, i) => ({ kind: 'line', from: points[i]!, to }));

export function drawLine(e: DxfEntityTags, { scale }: Reading): Drawn {
  refuseTilted(e, [30, 31]);
  const points = [scaled(pointAt(e, 10, 'start'), scale), scaled(pointAt(e, 11, 'end'), scale)];
  return { sides: linesThrough(points), closed: false, error: 0 };
}

function radiusOf(e: DxfEntityTags): number {
  const radius = neededAt(e, 40, 'radius');
  if (!(radius > 0)) throw new RangeError(`${e.name} has a radius of ${radius}`);
  return radius;
}

/** The two halves of a circle. */
const circleSides = (centre: Vec2, radius: number): readonly Side[] => sidesOf(circleOutline(centre, 2 * radius));

export function drawCircle(e: DxfEntityTags, { scale }: Reading): Drawn {
  const [x, y] = scaled(pointAt(e, 10, 'centre'), scale);
  const centre: Vec2 = [seenFromBelow(e) ? -x : x, y];
  return { sides: circleSides(centre, radiusOf(e) * scale), closed: true, error: 0 };
}

/** Counter-clockwise from group 50 to group 51, degrees. */
export function drawArc(e: DxfEntityTags, { scale }: Reading): Drawn {
  const [x, y] = scaled(pointAt(e, 10, 'centre'), scale);
  const radius = radiusOf(e) * scale;
  const start = radians(neededAt(e, 50, 'start angle'));
  const sweep = wrapTwoPi(radians(neededAt(e, 51, 'end angle')) - start);
  const below = seenFromBelow(e);
  const centre: Vec2 = [below ? -x : x, y];
  if (sweep < 1e-9 || sweep > 2 * Math.PI - 1e-9) {
    return { sides: circleSides(centre, radius), closed: true, error: 0 };
  }
  const arc = below ? arcAbout(centre, radius, Math.PI - start, -sweep) : arcAbout(centre, radius, start, sweep);
  return { sides: [arc], closed: false, error: 0 };
}

/** Sampled: a step d of the parameter leaves an ellipse of half axis a by a (1 - cos(d / 2)) at most. */
export function drawEllipse(e: DxfEntityTags, { scale, error, most }: Reading): Drawn {
  refuseTilted(e, [31]);
  const centre = scaled(pointAt(e, 10, 'centre'), scale);
  const major = scaled(pointAt(e, 11, 'long axis'), scale);
  const ratio = neededAt(e, 40, 'ratio of the axes');
  const size = Math.hypot(...major) * Math.max(1, ratio);
  if (!(ratio > 0) || !(size > 0)) throw new RangeError(`${e.name} has no width`);
  const way = seenFromBelow(e) ? -1 : 1;
  const minor: Vec2 = [-major[1] * ratio * way, major[0] * ratio * way];
  const start = numberAt(e, 41) ?? 0;
  const end = numberAt(e, 42) ?? 2 * Math.PI;
  const turned = wrapTwoPi(end - start);
  const full = turned < 1e-9 || turned > 2 * Math.PI - 1e-9;
  const sweep = full ? 2 * Math.PI : turned;
  if (Math.abs(ratio - 1) < 1e-9) {
    const from = Math.atan2(major[1], major[0]) + start * way;
    const sides = full ? circleSides(centre, size) : [arcAbout(centre, size, from, sweep * way)];
    return { sides, closed: full, error: 0 };
  }
  const count = Math.max(8, Math.ceil(sweep / (2 * Math.acos(Math.max(0, 1 - error / size)))));
  if (count > most) throw new RangeError(`${e.name} takes more than ${most} points to follow within ${error} mm`);
  const points = Array.from({ length: count + 1 }, (_, i): Vec2 => {
    const t = start + (sweep * (full && i === count ? 0 : i)) / count;
    const [c, s] = [Math.cos(t), Math.sin(t)];
    return [centre[0] + major[0] * c + minor[0] * s, centre[1] + major[1] * c + minor[1] * s];
  });
  return { sides: linesThrough(points), closed: full, error };
}

/** Sampled. */
export function drawSpline(e: DxfEntityTags, { scale, error, most }: Reading): Drawn {
  const all = (code: number): number[] => e.tags.filter((t) => t.code === code).map(bounded);
  const [xs, ys, zs] = [all(10), all(20), all(30)];
  if (xs.length === 0) {
    const why = all(11).length > 0 ? 'has fit points and no control points' : 'has no control points';
    throw new RangeError(`${e.name} ${why}; convert it to a polyline or arcs before saving`);
  }
  if (xs.length !== ys.length)
    throw new RangeError(`${e.name} has ${xs.length} x and ${ys.length} y of control points`);
  if (zs.some((z) => Math.abs(z - zs[0]!) > 1e-6)) throw new RangeError(`${e.name} does not lie flat: its z differ`);
  const stated = numberAt(e, 73);
  if (stated !== null && stated !== xs.length) {
    throw new RangeError(`${e.name} says ${stated} control points and has ${xs.length}`);
  }
  try {
    const degree = neededAt(e, 71, 'degree');
    const control = xs.map((x, i): Vec2 => [x * scale, ys[i]! * scale]);
    const points = splinePoints({ degree, knots: all(40), points: control, weights: all(41) }, error, most);
    const closed = Math.hypot(points[0]![0] - points.at(-1)![0], points[0]![1] - points.at(-1)![1]) < 1e-6;
    return { sides: linesThrough(closed ? [...points.slice(0, -1), points[0]!] : points), closed, error };
  } catch (reason) {
    const { message } = reason as Error;
    throw new RangeError(message.startsWith(e.name) || message.startsWith('line ') ? message : `${e.name}: ${message}`);
  }
}
