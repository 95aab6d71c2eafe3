import { parse, stringify } from 'yaml';
import { degrees, radians } from '../../src/geometry/angle.js';
import { frameAlong } from '../../src/geometry/frame.js';
import { add, along, cross, dot, rotateAbout, scale, signedAngle, unit, type Vec3 } from '../../src/geometry/vec3.js';

/** How a header is moved: first turned or mirrored about the origin, then shifted; and its cylinders' new numbers. */
export interface Motion {
  /** Where +x, +y and +z of the world go. */
  readonly axes: readonly [Vec3, Vec3, Vec3];
  /** In the plan's unit. */
  readonly shift: Vec3;
  /** The new number of cylinder 1, 2, ...; as before when left out. */
  readonly numbers?: readonly number[];
}

export const MIRRORED_X: Motion['axes'] = [
  [-1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];
export const MIRRORED_Z: Motion['axes'] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, -1],
];
/** A quarter turn about z, right-handed. */
export const QUARTER_Z: Motion['axes'] = [
  [0, 1, 0],
  [-1, 0, 0],
  [0, 0, 1],
];
/** A third of a turn about the diagonal: x to y, y to z, z to x. */
export const IN_TURN: Motion['axes'] = [
  [0, 1, 0],
  [0, 0, 1],
  [1, 0, 0],
];
/** No axis of the world comes to lie on another. */
export const ASKEW: Motion['axes'] = [turned([1, 0, 0]), turned([0, 1, 0]), turned([0, 0, 1])];

function turned(v: Vec3): Vec3 {
  return rotateAbout(v, unit([1, -2, 0.7]), 0.83);
}

/** A direction after a motion, and a place, mm. */
export const wayAfter = ({ axes: [x, y, z] }: Motion, v: Vec3): Vec3 => along(along(scale(x, v[0]), y, v[1]), z, v[2]);
export const placeAfter = (motion: Motion, p: Vec3): Vec3 => add(wayAfter(motion, p), motion.shift);

export const numberAfter = ({ numbers }: Motion, cylinder: number): number => numbers?.[cylinder - 1] ?? cylinder;

/** Round a ring of inlets a mirror changes the sense; inlet 1 stays. */
export const inletAfter = (motion: Motion, inlet: number, count: number): number =>
  hand(motion) > 0 ? inlet : ((count + 1 - inlet) % count) + 1;

/** 1, or -1 where a motion mirrors. */
const hand = ({ axes: [x, y, z] }: Motion): 1 | -1 => (dot(cross(x, y), z) > 0 ? 1 : -1);

type Point2 = readonly [number, number];
type Fields = Readonly<Record<string, unknown>>;

interface FaceText extends Fields {
  readonly clocking?: number;
  readonly ports: readonly (Fields & { cylinder: number; at: Point2; direction?: Vec3 })[];
  readonly bolts: readonly (Fields & { at: Point2 })[];
  readonly plugs?: readonly (Fields & { cylinder: number; at: Vec3; direction: Vec3 })[];
  readonly body?: Fields & { from: Point2; to: Point2 };
}

interface HeadText extends FaceText {
  readonly at: Vec3;
  readonly facing: Vec3;
}

interface CollectorText extends Fields {
  readonly at: Vec3;
  readonly direction: Vec3;
  readonly clocking?: number;
  readonly cylinders?: readonly number[];
  readonly from?: readonly string[];
  readonly order?: string | readonly (number | string)[];
  readonly branch?: Fields & { clocking?: number };
  readonly freedom?: Fields & { from?: Vec3; to?: Vec3 };
}

interface KeepOutText extends Fields {
  readonly kind: string;
  readonly from?: Vec3;
  readonly to?: Vec3;
  readonly point?: Vec3;
  readonly normal?: Vec3;
}

interface RouteText extends Fields {
  readonly cylinder: number;
  readonly inlet?: number;
  readonly points?: readonly Vec3[];
  readonly plane?: Vec3;
  readonly rows?: readonly (Fields & { rotation?: number })[];
}

interface PlanText extends Fields {
  readonly engine: Fields & { cylinders: number; firing_order: readonly number[] };
  readonly head?: FaceText;
  readonly heads?: readonly HeadText[];
  readonly collector?: CollectorText;
  readonly collectors?: readonly CollectorText[];
  readonly runners: Fields & { routes?: readonly RouteText[] };
  readonly keep_out?: readonly KeepOutText[];
  readonly ground?: number;
}

/**
 * The plan of the same header elsewhere, mirrored or with other numbers, as a person would write it. Ports are of shapes that are
 * their own mirror images and not traced. Throws RangeError for a box that would no longer lie along the world's axes.
 */
export function movedPlan(text: string, motion: Motion): string {
  const { head, heads, collector, collectors, ground, existing: _, ...plan } = parse(text) as PlanText;
  const { engine, runners, keep_out = [] } = plan;
  const inlets = new Map<number, number>();
  for (const c of collectors ?? []) for (const n of c.cylinders ?? []) inlets.set(n, c.cylinders!.length);
  const floor = { name: 'ground', kind: 'half_space', point: [0, ground ?? 0, 0], normal: [0, 1, 0] } as const;
  const all = heads ?? [{ name: 'head', at: [0, 0, 0], facing: [0, 0, 1], ...head! }];
  return stringify(
    {
      ...plan,
      engine: { ...engine, firing_order: engine.firing_order.map((n) => numberAfter(motion, n)) },
      heads: all.map((h) => movedHead(h, motion)),
      ...(collector ? { collector: movedCollector(collector, engine.cylinders, motion) } : {}),
      ...(collectors ? { collectors: collectors.map((c) => movedCollector(c, 1, motion)) } : {}),
      runners: {
        ...runners,
        ...(runners.routes
          ? { routes: runners.routes.map((r) => movedRoute(r, inlets.get(r.cylinder) ?? engine.cylinders, motion)) }
          : {}),
      },
      keep_out: [...keep_out, ...(ground === undefined ? [] : [floor])].map((k) => movedKeepOut(k, motion)),
    },
    { aliasDuplicateObjects: false },
  );
}

/** Degrees by which a direction must be turned about an axis to come to another, for a clocking. */
const clockingBetween = (from: Vec3, to: Vec3, axis: Vec3): number => degrees(signedAngle(from, to, axis));

function movedHead(head: HeadText, motion: Motion): HeadText {
  const before = frameAlong(head.at, unit(head.facing), radians(head.clocking ?? 0));
  const facing = wayAfter(motion, head.facing);
  const plain = frameAlong([0, 0, 0], unit(facing));
  // y stays up along the face, so that a mirror turns x round
  const side = hand(motion);
  const on = ([x, y]: Point2): Point2 => [side * x, y];
  const into = ([x, y, z]: Vec3): Vec3 => [side * x, y, z];
  return {
    ...head,
    at: placeAfter(motion, head.at),
    facing,
    clocking: clockingBetween(plain.y, wayAfter(motion, before.y), plain.z),
    ports: head.ports.map((p) => ({
      ...p,
      cylinder: numberAfter(motion, p.cylinder),
      at: on(p.at),
      ...(p.direction ? { direction: into(p.direction) } : {}),
    })),
    bolts: head.bolts.map((b) => ({ ...b, at: on(b.at) })),
    ...(head.plugs ? { plugs: head.plugs.map((p) => movedPlug(p, into, motion)) } : {}),
    ...(head.body ? { body: movedBody(head.body, side) } : {}),
  };
}

const movedPlug = <T extends { cylinder: number; at: Vec3; direction: Vec3 }>(
  plug: T,
  into: (v: Vec3) => Vec3,
  motion: Motion,
): T => ({
  ...plug,
  cylinder: numberAfter(motion, plug.cylinder),
  at: into(plug.at),
  direction: into(plug.direction),
});

const movedBody = <T extends { from: Point2; to: Point2 }>(body: T, side: 1 | -1): T =>
  side > 0 ? body : { ...body, from: [-body.to[0], body.from[1]], to: [-body.from[0], body.to[1]] };

function movedCollector(c: CollectorText, cylinders: number, motion: Motion): CollectorText {
  const before = frameAlong(c.at, unit(c.direction), radians(c.clocking ?? 0));
  const direction = wayAfter(motion, c.direction);
  const plain = frameAlong([0, 0, 0], unit(direction));
  const { order, branch, freedom } = c;
  const count = c.cylinders?.length ?? c.from?.length ?? cylinders;
  const atInlet = (inlet: number): number | string => {
    const before = (order as readonly (number | string)[])[inletAfter(motion, inlet, count) - 1]!;
    return typeof before === 'number' ? numberAfter(motion, before) : before;
  };
  return {
    ...c,
    at: placeAfter(motion, c.at),
    direction,
    clocking: clockingBetween(plain.x, wayAfter(motion, before.x), plain.z),
    ...(c.cylinders ? { cylinders: c.cylinders.map((n) => numberAfter(motion, n)) } : {}),
    ...(Array.isArray(order) ? { order: order.map((_, i) => atInlet(i + 1)) } : {}),
    ...(branch ? { branch: { ...branch, clocking: hand(motion) * (branch.clocking ?? 0) } } : {}),
    ...(freedom ? { freedom: movedFreedom(freedom, motion) } : {}),
  };
}

const movedFreedom = <T extends { from?: Vec3; to?: Vec3 }>(freedom: T, motion: Motion): T => ({
  ...freedom,
  from: wayAfter(motion, freedom.from ?? [0, 0, 0]),
  to: wayAfter(motion, freedom.to ?? [0, 0, 0]),
});

function movedRoute(route: RouteText, inlets: number, motion: Motion): RouteText {
  const { inlet, points, plane, rows } = route;
  const side = hand(motion);
  return {
    ...route,
    cylinder: numberAfter(motion, route.cylinder),
    ...(inlet ? { inlet: inletAfter(motion, inlet, inlets) } : {}),
    ...(points ? { points: points.map((p) => placeAfter(motion, p)) } : {}),
    ...(plane ? { plane: scale(wayAfter(motion, plane), side) } : {}),
    ...(rows ? { rows: rows.map((r) => ({ ...r, rotation: side * (r.rotation ?? 0) })) } : {}),
  };
}

function movedKeepOut(k: KeepOutText, motion: Motion): KeepOutText {
  if (k.kind === 'mesh') throw new RangeError('a scan is moved with its file');
  if (k.kind === 'box' && !motion.axes.every((a) => a.filter((c) => c === 0).length === 2)) {
    throw new RangeError(`the box ${JSON.stringify(k.name)} would no longer lie along the axes`);
  }
  return {
    ...k,
    ...(k.from ? { from: placeAfter(motion, k.from), to: placeAfter(motion, k.to!) } : {}),
    ...(k.point ? { point: placeAfter(motion, k.point), normal: wayAfter(motion, k.normal!) } : {}),
  };
}
