import { type Frame, frameAlong } from '../geometry/frame.js';
import { inletFrames, ringRadius } from '../geometry/inlet-ring.js';
import type { Obstacle } from '../geometry/obstacle.js';
import { segmentApproach } from '../geometry/segment-distance.js';
import { along, distance, dot, sub, unit } from '../geometry/vec3.js';
import type { CollectorPlan, GivenRoute, Head, KeepOut, Plan, StockBend } from '../params/plan.js';
import { inletOrders, permutations } from './inlet-order.js';

/** What the router is asked: ends, limits and space, free of everything else a plan says. mm and rad. */
export interface RouteProblem {
  readonly runners: readonly Runner[];
  readonly collectors: readonly Joining[];
  readonly keptOut: readonly KeptOut[];
  /** Outside radius of the tube. */
  readonly radius: number;
  readonly target: number;
  /** Least gap between the skins of two primaries. */
  readonly clearance: number;
  /** Least gap between places of one primary further apart along it than `selfSeparation`. */
  readonly selfGap: number;
  readonly selfSeparation: number;
  readonly stock: readonly StockBend[];
  readonly minStraight: number;
  readonly minStraightInlet: number;
  readonly seed: number;
}

/** A primary to be routed: from its port to one of the inlets of its collector. */
export interface Runner {
  readonly cylinder: number;
  /** Index into `collectors`. */
  readonly collector: number;
  readonly port: Frame;
  /** Least first straight: through the flange and on to the first bend. */
  readonly minFirst: number;
  readonly given: GivenRoute | null;
}

/** A collector as the router sees it. */
export interface Joining {
  readonly name: string;
  readonly inlets: readonly Frame[];
  /** Allowed orders: the cylinder at each inlet. Empty when routes given by hand meet at one inlet. */
  readonly orders: readonly (readonly number[])[];
  /** False when routes given by hand go against the order the plan asks for; the orders are then those that fit the routes. */
  readonly orderKept: boolean;
  /** Within this running length of the inlets its primaries may stand as close as the inlets do. */
  readonly runIn: number;
  /** The gap they must keep there. */
  readonly runInGap: number;
}

/** Space no tube may enter. */
export interface KeptOut {
  readonly name: string;
  readonly obstacle: Obstacle;
  /** Least gap from a tube's skin. */
  readonly limit: number;
  /** Cylinders whose tube starts on it (a head) or ends on it (its collector): they are measured once they have left it. */
  readonly startsOn: readonly number[];
  readonly endsOn: readonly number[];
}

/** How far apart along one tube, in diameters, two places must be to count as different passes of it. */
const SELF_SEPARATION = 3;

/** The routing problem a plan poses. */
export function problemOf(plan: Plan): RouteProblem {
  const { tube, runners: wish } = plan;
  const runners = plan.ports.map((port) => ({
    cylinder: port.cylinder,
    collector: plan.collectors.findIndex((c) => c.cylinders.includes(port.cylinder)),
    port: port.frame,
    minFirst: plan.flange.thickness / dot(port.frame.z, plan.heads[port.head]!.frame.z) + tube.minStraightPort,
    given: wish.given.find((g) => g.cylinder === port.cylinder) ?? null,
  }));
  return {
    runners,
    collectors: plan.collectors.map((c) => joining(c, plan)),
    keptOut: [
      ...plan.heads.map((head, i) => headKeptOut(head, i, plan)),
      ...plan.collectors.map((c) => collectorKeptOut(c, plan)),
      ...plan.keepOuts.map(keptOutOf),
    ],
    radius: tube.od / 2,
    target: wish.length,
    clearance: wish.clearance,
    selfGap: Math.min(wish.clearance, tube.od / 4),
    selfSeparation: SELF_SEPARATION * tube.od,
    stock: tube.bends,
    minStraight: tube.minStraight,
    minStraightInlet: tube.minStraightInlet,
    seed: wish.seed,
  };
}

function joining(c: CollectorPlan, plan: Plan): Joining {
  const od = plan.tube.od;
  const count = c.cylinders.length;
  const inlets = inletFrames(c.frame, count, ringRadius(count, od, c.inletGap), c.mergeHalfAngle);
  const atInlets = count > 1 ? gapAt(inlets, 0, od) : Number.POSITIVE_INFINITY;
  return {
    name: c.name,
    inlets,
    ...ordersFor(c, plan, inlets),
    runIn: count > 1 ? runInLength(inlets, od, plan.runners.clearance) : 0,
    runInGap: Math.min(plan.runners.clearance, atInlets),
  };
}

/** The orders a collector allows beside the routes given by hand, each of which keeps the inlet it names or ends nearest to. */
function ordersFor(c: CollectorPlan, plan: Plan, inlets: readonly Frame[]): Pick<Joining, 'orders' | 'orderKept'> {
  const given = plan.runners.given.filter((g) => c.cylinders.includes(g.cylinder));
  const fits = (order: readonly number[]): boolean =>
    given.every((g) => order[givenInlet(g, inlets) - 1] === g.cylinder);
  const asked = inletOrders(c, plan.engine.firingOrder).filter(fits);
  if (asked.length > 0) return { orders: asked, orderKept: true };
  return { orders: permutations(c.cylinders).filter(fits), orderKept: false };
}

/** The inlet, from 1, that a route given by hand names or ends nearest to. */
export function givenInlet(given: GivenRoute, inlets: readonly Frame[]): number {
  if (given.inlet !== null) return given.inlet;
  const end = given.points[given.points.length - 1]!;
  const away = inlets.map((inlet) => distance(inlet.origin, end));
  return away.indexOf(Math.min(...away)) + 1;
}

/** Gap between the skins of straight tubes from two neighbouring inlets, from a place `back` mm before the inlet plane. */
function gapAt(inlets: readonly Frame[], back: number, od: number): number {
  const [a, b] = inlets as [Frame, Frame];
  const far = 1e4;
  const from = along(a.origin, a.z, -back);
  return segmentApproach(from, along(a.origin, a.z, -far), b.origin, along(b.origin, b.z, -far)).distance - od;
}

/** Running length before the inlets at which straight tubes from neighbouring inlets stand the clearance apart, and a little more. */
function runInLength(inlets: readonly Frame[], od: number, clearance: number): number {
  if (gapAt(inlets, 0, od) >= clearance) return 0;
  let lo = 0;
  let hi = 5000;
  for (let i = 0; i < 60; i++) {
    const middle = (lo + hi) / 2;
    if (gapAt(inlets, middle, od) < clearance + 0.5) lo = middle;
    else hi = middle;
  }
  return hi;
}

/** The head with its flange: no tube comes back to it once it has left. */
function headKeptOut(head: Head, index: number, plan: Plan): KeptOut {
  const { frame, body } = head;
  const face = along(frame.origin, frame.z, plan.flange.thickness);
  return {
    name: plan.heads.length > 1 ? `head ${head.name}` : 'head',
    obstacle: body
      ? {
          kind: 'box',
          frame,
          from: [body.from[0], body.from[1], -body.depth],
          to: [body.to[0], body.to[1], plan.flange.thickness],
        }
      : { kind: 'half-space', point: face, normal: frame.z },
    limit: Math.min(plan.runners.clearance, plan.tube.minStraightPort),
    startsOn: plan.ports.filter((p) => p.head === index).map((p) => p.cylinder),
    endsOn: [],
  };
}

/** A collector takes up the cylinder round its inlets from the inlet plane to the end of its outlet. */
function collectorKeptOut(c: CollectorPlan, plan: Plan): KeptOut {
  const od = plan.tube.od;
  const ring = ringRadius(c.cylinders.length, od, c.inletGap);
  const merge = c.mergeHalfAngle > 0 ? ring / Math.tan(c.mergeHalfAngle) : 0;
  return {
    name: plan.collectors.length > 1 ? `collector ${c.name}` : 'collector',
    obstacle: {
      kind: 'cylinder',
      frame: c.frame,
      radius: Math.max(ring + od / 2, c.outlet.od / 2),
      length: merge + c.outlet.coneLength + c.outlet.tail,
    },
    limit: Math.min(plan.runners.clearance, plan.tube.minStraightInlet),
    startsOn: [],
    endsOn: c.cylinders,
  };
}

function keptOutOf(k: KeepOut): KeptOut {
  const common = { name: `keep-out ${k.name}`, limit: k.clearance, startsOn: [], endsOn: [] };
  if (k.kind === 'box') {
    const frame = frameAlong([0, 0, 0], [0, 0, 1]);
    return { ...common, obstacle: { kind: 'box', frame, from: k.from, to: k.to } };
  }
  const frame = frameAlong(k.from, unit(sub(k.to, k.from)));
  return {
    ...common,
    obstacle: { kind: 'cylinder', frame, radius: k.diameter / 2, length: distance(k.from, k.to) },
  };
}
