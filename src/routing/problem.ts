import { advance, type Frame, frameAlong, frameFrom } from '../geometry/frame.js';
import { branchFrame } from '../geometry/merge/branch-axis.js';
import { mergeEnd } from '../geometry/merge/end.js';
import { inletFrames, ringRadius } from '../geometry/merge/inlet-ring.js';
import { fieldOf, type Reach } from '../geometry/scan/field.js';
import { scanOf } from '../geometry/scan/scan.js';
import type { Obstacle } from '../geometry/space/obstacle.js';
import { segmentApproach } from '../geometry/space/segment-distance.js';
import { along, distance, dot, sub, unit, type Vec3 } from '../geometry/vec3.js';
import { inletCount, inletTube } from '../params/collector/inlet-tube.js';
import { outletLength } from '../params/collector/outlet-length.js';
import type {
  Access,
  CollectorPlan,
  GivenRoute,
  Head,
  KeepOut,
  Plan,
  RouteWeights,
  StockBend,
} from '../params/plan.js';
import { type AllowedOrders, ordersFor } from './inlet-order.js';

/** What the router is asked: ends, limits and space, free of everything else a plan says. mm and rad. */
export interface RouteProblem {
  readonly runners: readonly Runner[];
  readonly collectors: readonly Joining[];
  readonly keptOut: readonly KeptOut[];
  /** Least gap between the skins of two tubes. */
  readonly clearance: number;
  /** Where one pair's gap differs, by `pairKey`. */
  readonly pairClearance?: ReadonlyMap<string, number>;
  /** Least gap between places of one tube further apart along it than `selfSeparation` diameters. */
  readonly selfGap: number;
  readonly minStraight: number;
  readonly minStraightInlet: number;
  readonly weights: RouteWeights;
  /** Unit the plan is written in, for what is said of it; left out: mm. */
  readonly units?: 'mm' | 'in';
  readonly seed: number;
}

/** A tube to be routed: a primary from its port, or a secondary from a collector's outlet, to an inlet of a collector. */
export interface Runner {
  /** Cylinder number, or the name of the collector a secondary comes from. */
  readonly id: string;
  /** 'cylinder 2' or 'secondary from front'. */
  readonly name: string;
  /** What the orders of its collector call it: cylinder number, or place in the collector's list of feeders from 1. */
  readonly key: number;
  /** Index into `collectors`. */
  readonly collector: number;
  /** Where it starts; z is the way of the gas. */
  readonly start: Frame;
  /** Least first straight. */
  readonly minFirst: number;
  readonly target: number;
  /** From the start on; more than one where the tube grows. */
  readonly sections: readonly Section[];
  readonly given: GivenRoute | null;
}

/** A stretch of one tube size. */
export interface Section {
  /** Running length at which it is to begin; 0 for the first. */
  readonly at: number;
  /** How far to either side of that the joint may fall. */
  readonly within: number;
  /** Outside radius. */
  readonly radius: number;
  readonly wall: number;
  readonly stock: readonly StockBend[];
}

/** A collector as the router sees it. */
export interface Joining {
  readonly name: string;
  readonly inlets: readonly Frame[];
  readonly allowed: AllowedOrders;
  /** Within this running length of the inlets its tubes may stand as close as the inlets do. */
  readonly runIn: number;
  /** The gap they must keep there. */
  readonly runInGap: number;
  /** Within this running length they draw together whatever their routes: closeness there tells nothing. At least the run-in. */
  readonly approach: number;
}

/** Space no tube may enter. */
export interface KeptOut {
  readonly name: string;
  readonly obstacle: Obstacle;
  /** Least gap from a tube's skin. */
  readonly limit: number;
  /** Runners (by id) whose tube starts on it (a head) or ends on it (its collector): they are measured once they have left it. */
  readonly startsOn: readonly string[];
  readonly endsOn: readonly string[];
}

/** Clearances that straight tubes stand apart where their approach to a collector begins. */
const APART = 3;

/** How far apart along one tube, in diameters, two places must be to count as different passes of it. */
export const SELF_SEPARATION = 3;

/** What the solver may choose within the plan's freedom: the place of every collector and the common length. */
export interface Placement {
  /** Inlet frame of every collector. */
  readonly frames: readonly Frame[];
  readonly length: number;
}

/** The placement a plan names. */
export const plannedPlacement = (plan: Plan): Placement => ({
  frames: plan.collectors.map((c) => c.frame),
  length: plan.runners.length,
});

/** The kept-out space that no placement changes: made once, since scans take time. */
export function fixedSpace(plan: Plan): readonly KeptOut[] {
  const reach = reachOf(plan);
  return [
    ...plan.heads.map((head, i) => headKeptOut(head, i, plan)),
    ...plan.keepOuts.map((k) => keptOutOf(k, reach)),
    ...plan.access.map(accessKeptOut),
  ];
}

/**
 * A box that holds every tube whatever its route: from the middle of its ends it goes at most half its length. Along the axes in
 * which `seen` gives places of the world.
 */
export function reachOf(plan: Plan, seen: (p: Vec3) => Vec3 = (p) => p): Reach {
  const longest = Math.max(plan.runners.band?.to ?? plan.runners.length, plan.secondaries?.length ?? 0) / 2;
  const slack = longest + plan.tube.od;
  const ends = [...plan.ports.map((p) => p.frame.origin), ...plan.collectors.map((c) => c.frame.origin)].map(seen);
  const least = (i: number): number => Math.min(...ends.map((p) => p[i]!)) - slack;
  const most = (i: number): number => Math.max(...ends.map((p) => p[i]!)) + slack;
  return { from: [least(0), least(1), least(2)], to: [most(0), most(1), most(2)] };
}

/** The routing problem a plan poses, with its collectors at a placement. */
export function problemOf(
  plan: Plan,
  placement: Placement = plannedPlacement(plan),
  space: readonly KeptOut[] = fixedSpace(plan),
): RouteProblem {
  const { tube, runners: wish } = plan;
  const placed = plan.collectors.map((c, i) => ({ ...c, frame: placement.frames[i]! }));
  return {
    runners: [...primaryRunners(plan, placement.length), ...secondaryRunners(plan, placed)],
    collectors: placed.map((c) => joining(c, plan)),
    keptOut: [
      ...space,
      ...placed.map((c) => collectorKeptOut(c, plan)),
      ...placed.flatMap((c) => branchKeptOut(c, plan)),
    ],
    clearance: wish.clearance,
    selfGap: Math.min(wish.clearance, tube.od / 4),
    minStraight: tube.minStraight,
    minStraightInlet: tube.minStraightInlet,
    weights: wish.weights,
    seed: wish.seed,
    units: plan.units,
  };
}

function primaryRunners(plan: Plan, target: number): Runner[] {
  const { tube } = plan;
  const sections = [
    { at: 0, within: 0, radius: tube.od / 2, wall: tube.wall, stock: tube.bends },
    ...tube.steps.map((s) => ({ at: s.at, within: s.within, radius: s.od / 2, wall: s.wall, stock: s.bends })),
  ];
  return plan.ports.map((port) => ({
    id: String(port.cylinder),
    name: `cylinder ${port.cylinder}`,
    key: port.cylinder,
    collector: plan.collectors.findIndex((c) => c.cylinders.includes(port.cylinder)),
    start: port.frame,
    minFirst: plan.flange.thickness / dot(port.frame.z, plan.heads[port.head]!.frame.z) + tube.minStraightPort,
    target,
    sections,
    given: plan.runners.given.find((g) => g.cylinder === port.cylinder) ?? null,
  }));
}

function secondaryRunners(plan: Plan, placed: readonly CollectorPlan[]): Runner[] {
  const { secondaries } = plan;
  if (!secondaries) return [];
  return placed.flatMap((into, collector) =>
    into.from.map((name, i) => {
      const feeder = placed.find((c) => c.name === name)!;
      return {
        id: name,
        name: `secondary from ${name}`,
        key: i + 1,
        collector,
        start: advance(feeder.frame, collectorLength(feeder, plan)),
        minFirst: plan.tube.minStraight,
        target: secondaries.length,
        sections: [{ at: 0, within: 0, radius: secondaries.od / 2, wall: secondaries.wall, stock: secondaries.bends }],
        given: null,
      };
    }),
  );
}

/** From the inlet plane to the end of the outlet, mm. */
export function collectorLength(c: CollectorPlan, plan: Plan): number {
  const { od, wall } = inletTube(plan, c);
  const merge = mergeEnd(inletCount(c), od, od / 2 - wall, c.inletGap, c.mergeHalfAngle);
  return merge.length + outletLength(c.outlet);
}

function joining(c: CollectorPlan, plan: Plan): Joining {
  const { od } = inletTube(plan, c);
  const count = inletCount(c);
  const inlets = inletFrames(c.frame, count, ringRadius(count, od, c.inletGap), c.mergeHalfAngle);
  const atInlets = count > 1 ? gapAt(inlets, 0, od) : Number.POSITIVE_INFINITY;
  return {
    name: c.name,
    inlets,
    allowed: ordersFor(c, plan, inlets),
    runIn: count > 1 ? runInLength(inlets, od, plan.runners.clearance) : 0,
    approach: count > 1 ? approachLength(inlets, od, plan) : 0,
    runInGap: Math.min(plan.runners.clearance, atInlets),
  };
}

/** Gap between the skins of straight tubes from two neighbouring inlets, from a place `back` mm before the inlet plane. */
function gapAt(inlets: readonly Frame[], back: number, od: number): number {
  const [a, b] = inlets as [Frame, Frame];
  const far = 1e4;
  const from = along(a.origin, a.z, -back);
  return segmentApproach(from, along(a.origin, a.z, -far), b.origin, along(b.origin, b.z, -far)).distance - od;
}

/** What straight tubes stand apart beyond the clearance where the run-in begins, mm: more than the search may be wrong by. */
const SPARE = 0.5;

/** Running length before the inlets at which straight tubes from neighbouring inlets stand the clearance apart, and a little more. */
export function runInLength(inlets: readonly Frame[], od: number, clearance: number): number {
  if (gapAt(inlets, 0, od) >= clearance + SPARE) return 0;
  let lo = 0;
  let hi = 5000;
  for (let i = 0; i < 40; i++) {
    const middle = (lo + hi) / 2;
    if (gapAt(inlets, middle, od) < clearance + SPARE) lo = middle;
    else hi = middle;
  }
  return hi;
}

/** Running length of the approach: at most a third of a primary, for inlets that hardly spread, and never less than the run-in. */
function approachLength(inlets: readonly Frame[], od: number, plan: Plan): number {
  const { clearance, length } = plan.runners;
  return Math.max(runInLength(inlets, od, clearance), Math.min(runInLength(inlets, od, APART * clearance), length / 3));
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
    startsOn: plan.ports.filter((p) => p.head === index).map((p) => String(p.cylinder)),
    endsOn: [],
  };
}

/** A collector takes up the cylinder round its inlets from the inlet plane to the end of its outlet. */
function collectorKeptOut(c: CollectorPlan, plan: Plan): KeptOut {
  const { od } = inletTube(plan, c);
  return {
    name: plan.collectors.length > 1 ? `collector ${c.name}` : 'collector',
    obstacle: {
      kind: 'cylinder',
      frame: c.frame,
      radius: Math.max(ringRadius(inletCount(c), od, c.inletGap) + od / 2, c.outlet.od / 2),
      length: collectorLength(c, plan),
    },
    limit: Math.min(plan.runners.clearance, plan.tube.minStraightInlet, plan.tube.minStraight),
    startsOn: plan.collectors.some((into) => into.from.includes(c.name)) ? [c.name] : [],
    endsOn: [...c.cylinders.map(String), ...c.from],
  };
}

/** What a branch takes up, from the collector's axis to its open end. The secondary that leaves the same collector starts beside it. */
function branchKeptOut(c: CollectorPlan, plan: Plan): KeptOut[] {
  const { branch } = c;
  if (branch === null) return [];
  return [
    {
      name: plan.collectors.length > 1 ? `branch of collector ${c.name}` : 'branch of the collector',
      obstacle: {
        kind: 'cylinder',
        frame: frameFrom(c.frame, branchFrame(branch.at, branch.angle, branch.clocking)),
        radius: branch.od / 2,
        length: branch.length,
      },
      limit: plan.runners.clearance,
      startsOn: plan.collectors.some((into) => into.from.includes(c.name)) ? [c.name] : [],
      endsOn: [],
    },
  ];
}

const NOBODY = { startsOn: [], endsOn: [] } as const;

const accessKeptOut = (a: Access): KeptOut => ({
  name: `access to ${a.name}`,
  obstacle: { kind: 'cylinder', frame: a.frame, radius: a.diameter / 2, length: a.length },
  limit: 0,
  ...NOBODY,
});

function keptOutOf(k: KeepOut, reach: Reach): KeptOut {
  return { name: `keep-out ${k.name}`, limit: k.clearance, obstacle: obstacleOf(k, reach), ...NOBODY };
}

function obstacleOf(k: KeepOut, reach: Reach): Obstacle {
  switch (k.kind) {
    case 'box':
      return { kind: 'box', frame: frameAlong([0, 0, 0], [0, 0, 1]), from: k.from, to: k.to };
    case 'half-space':
      return { kind: 'half-space', point: k.point, normal: k.normal };
    case 'mesh':
      return { kind: 'mesh', field: fieldOf(scanOf(k.mesh), reach) };
    default: {
      const frame = frameAlong(k.from, unit(sub(k.to, k.from)));
      return { kind: k.kind, frame, radius: k.diameter / 2, length: distance(k.from, k.to) };
    }
  }
}
