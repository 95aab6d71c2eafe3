import { type Frame, WORLD } from '../geometry/frame.js';
import type { Vec3 } from '../geometry/vec3.js';
import type { CollectorFreedom, Plan } from '../params/plan.js';
import { compareLists, placeInOrder, wayInOrder } from './last-digits.js';
import type { Joining, RouteProblem, Runner } from './problem.js';
import { obstacleInOrder } from './seen-obstacle.js';
import { seenPoint, seenWay } from './seen-place.js';

/** What a header looks like from somewhere, and what stands where in its problem when it is put in order from there. */
export interface Sighting {
  /** Places in the problem's runners: primaries along the axes, then secondaries. */
  readonly runners: readonly number[];
  /** Places in the problem's collectors. */
  readonly collectors: readonly number[];
  /** Inlets of every collector of the problem, from 1. */
  readonly inlets: readonly (readonly number[])[];
  /** Everything the routing depends on, as numbers that tell two looks apart. */
  readonly looks: readonly number[];
  /** The cylinders and feeders in the order of `runners`, by the numbers people gave them. */
  readonly numbers: readonly number[];
}

/** What the planned problem of a plan looks like from a frame, right- or left-handed. */
export function sighted(plan: Plan, problem: RouteProblem, frame: Frame): Sighting {
  const ended = (f: Frame): number[] => [...place(frame, f.origin), ...way(frame, f.z)];
  const runners = inOrder(problem.runners, (r, i) => [i < plan.ports.length ? 0 : 1, ...ended(r.start)]);
  const collectors = inOrder(plan.collectors, (c) => ended(c.frame));
  const inlets = problem.collectors.map((c) => inOrder(c.inlets, (inlet) => ended(inlet)).map((i) => i + 1));
  const tubes = runners.map((i) => problem.runners[i]!);
  const looks = [
    ...firstLook(plan, frame),
    ...tubes.flatMap((r) => [...ended(r.start), collectors.indexOf(r.collector), ...tubeLooks(r, frame)]),
    ...collectors.flatMap((i) => [
      ...ended(plan.collectors[i]!.frame),
      ...ordersLook(problem.collectors[i]!, inlets[i]!, tubes, i),
      ...freedomLooks(plan.collectors[i]!.freedom, plan.collectors[i]!.frame.origin, frame),
    ]),
    ...problem.keptOut
      .map((k) => [...obstacleInOrder(k.obstacle, frame), placeInOrder(k.limit)])
      .sort(compareLists)
      .flat(),
  ];
  return { runners, collectors, inlets, looks, numbers: tubes.map((r) => r.key) };
}

const place = (frame: Frame, p: Vec3): number[] => seenPoint(frame, p).map(placeInOrder);
const way = (frame: Frame, v: Vec3): number[] => seenWay(frame, v).map(wayInOrder);

/** Places of a list, sorted by what each looks like. */
function inOrder<T>(all: readonly T[], looks: (item: T, i: number) => readonly number[]): number[] {
  const known = all.map(looks);
  return all.map((_, i) => i).sort((a, b) => compareLists(known[a]!, known[b]!));
}

/** What comes first to the eye: ports that lead up z, collectors low in y, then far along x. */
function firstLook({ ports, collectors }: Plan, frame: Frame): number[] {
  const sum = (all: readonly number[]): number => all.reduce((a, b) => a + b, 0);
  const out = sum(ports.map((p) => seenWay(frame, p.frame.z)[2]));
  const centres = collectors.map((c) => seenPoint(frame, c.frame.origin));
  return [
    wayInOrder(out),
    placeInOrder(-sum(centres.map((c) => c[1])) / centres.length),
    placeInOrder(sum(centres.map((c) => c[0])) / centres.length),
  ];
}

function tubeLooks({ target, minFirst, sections, given }: Runner, frame: Frame): number[] {
  return [
    ...[target, minFirst, ...sections.flatMap((s) => [s.at, s.radius])].map(placeInOrder),
    ...(given?.points.flatMap((p) => place(frame, p)) ?? []),
  ];
}

/** Which tubes, by their places in order, may stand at the inlets in order; sorted, as one allowed order is like another. */
function ordersLook(c: Joining, inlets: readonly number[], tubes: readonly Runner[], index: number): number[] {
  const tubeOf = (key: number): number => tubes.findIndex((r) => r.collector === index && r.key === key);
  const orders = c.allowed.orders?.map((order) => inlets.map((inlet) => tubeOf(order[inlet - 1]!))) ?? [];
  return orders.sort(compareLists).flat();
}

/** The room a collector has, as a box about its place. */
function freedomLooks(freedom: CollectorFreedom | null, at: Vec3, frame: Frame): number[] {
  if (!freedom) return [];
  const { from, to, tilt, turns } = freedom;
  return [...obstacleInOrder({ kind: 'box', frame: { ...WORLD, origin: at }, from, to }, frame), tilt, turns ? 1 : 0];
}
