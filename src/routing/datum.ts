import { directionInto, type Frame } from '../geometry/frame.js';
import { add, along, cross, dot, length, perpendicularTo, scale, sub, unit, type Vec3 } from '../geometry/vec3.js';
import type { Plan } from '../params/plan.js';
import { compareLists, wayInOrder } from './last-digits.js';
import type { RouteProblem } from './problem.js';
import { type Sighting, sighted } from './sighting.js';

/**
 * Where the search looks at a header from: axes that its ports and collectors give, and its tubes, collectors and inlets put in
 * order along them. The same header at another place of the world, mirrored or with other numbers carries its datum with it, so
 * that the search meets the same problem.
 */
export interface Datum extends Sighting {
  /** Axes in the world; left-handed for one of two headers that mirror each other. */
  readonly frame: Frame;
}

/**
 * The datum of a plan, from the problem it poses with its collectors where it names them. The origin is the middle of the ports; z
 * is the mean way out of them, or where that is none the way to the collectors, or the way of their gas; x runs along the ports.
 * Which way each axis points is decided by what is seen from there: z out of the ports, the collectors at low y and high x, then
 * by everything else that takes part in the routing.
 *
 * A header that is its own mirror image looks the same from two datums. There that one counts in which the cylinders come in the
 * lower order of numbers, and only there do other numbers give the other of two routings that mirror each other. Where neither
 * ports nor collectors show any way across z, x is taken from the world.
 */
export function datumOf(plan: Plan, planned: RouteProblem): Datum {
  const { origin, axes } = linesOf(plan);
  const all = SENSES.map((senses): Datum => {
    const [x, y, z] = senses.map((s, i) => scale(axes[i]!, s)) as [Vec3, Vec3, Vec3];
    const frame = { origin, x, y, z };
    return { frame, ...sighted(plan, planned, frame) };
  });
  return all.reduce((best, d) => (goesBefore(d, best) ? d : best));
}

const SENSES = [1, -1].flatMap((z) => [1, -1].flatMap((y) => [1, -1].map((x) => [x, y, z] as const)));

function goesBefore(a: Datum, b: Datum): boolean {
  const looks = compareLists(a.looks, b.looks);
  return looks > 0 || (looks === 0 && compareLists(a.numbers, b.numbers) < 0);
}

/** A mean of unit directions shorter than this shows no way; nor do two places closer than this, mm. */
const NO_WAY = 0.1;
const NO_STEP = 1;

/** The origin and the lines of the axes, either way along each. */
function linesOf({ ports, collectors }: Plan): { readonly origin: Vec3; readonly axes: readonly [Vec3, Vec3, Vec3] } {
  const starts = ports.map((p) => p.frame.origin);
  const origin = mean(starts);
  const ways = [
    { way: mean(ports.map((p) => p.frame.z)), least: NO_WAY },
    { way: sub(mean(collectors.map((c) => c.frame.origin)), origin), least: NO_STEP },
    { way: mean(collectors.map((c) => c.frame.z)), least: NO_WAY },
  ];
  const out = ways.find(({ way, least }) => length(way) > least);
  const z: Vec3 = out ? unit(out.way) : [0, 0, 1];
  const flat = (v: Vec3): Vec3 => along(v, z, -dot(v, z));
  const across = ways.find(({ way, least }) => length(flat(way)) > least);
  const x = longWay(starts, origin, z) ?? (across ? unit(flat(across.way)) : perpendicularTo(z));
  return { origin, axes: [x, cross(z, x), z] };
}

const mean = (all: readonly Vec3[]): Vec3 =>
  scale(
    all.reduce((sum: Vec3, p) => add(sum, p), [0, 0, 0]),
    1 / all.length,
  );

/** How much further along than across, as a part of both, points must spread to have a long way. */
const LONGER = 1e-3;

/** The line square to z along which points spread most, the principal axis of their second moments; null when there is none. */
function longWay(points: readonly Vec3[], centre: Vec3, z: Vec3): Vec3 | null {
  const u = perpendicularTo(z);
  const v = cross(z, u);
  let [uu, uv, vv] = [0, 0, 0];
  for (const p of points) {
    const d = sub(p, centre);
    uu += dot(d, u) ** 2;
    uv += dot(d, u) * dot(d, v);
    vv += dot(d, v) ** 2;
  }
  const further = Math.hypot(uu - vv, 2 * uv);
  if (uu + vv < NO_STEP * points.length || further < LONGER * (uu + vv)) return null;
  const angle = Math.atan2(2 * uv, uu - vv) / 2;
  return along(scale(u, Math.cos(angle)), v, Math.sin(angle));
}

/** An axis of the world by its place in a point, and the way along it. */
export interface WorldAxis {
  readonly axis: 0 | 1 | 2;
  readonly sense: 1 | -1;
}

/** The world's axes in the order and the senses in which they appear from a datum: the first is the most along its x. */
export function worldAxesFrom({ frame }: Datum): WorldAxis[] {
  const rows = ([0, 1, 2] as const).map((axis) => {
    const e: Vec3 = [axis === 0 ? 1 : 0, axis === 1 ? 1 : 0, axis === 2 ? 1 : 0];
    const way = directionInto(frame, e).map(wayInOrder);
    const sense: 1 | -1 = way.find((c) => c !== 0)! < 0 ? -1 : 1;
    return { axis, sense, way: way.map((c) => c * sense) };
  });
  return rows.sort((a, b) => compareLists(b.way, a.way)).map(({ axis, sense }) => ({ axis, sense }));
}
