import type { Frame } from '../../src/geometry/frame.js';
import type { ControlPolygon } from '../../src/geometry/path/control-polygon.js';
import type { Vec3 } from '../../src/geometry/vec3.js';
import type { Plan, StockBend } from '../../src/params/plan.js';
import { problemOf } from '../../src/routing/problem.js';
import { type OwnSpace, spaceOf } from './dense-space.js';
import {
  type DenseTube,
  denseGap,
  denseTube,
  inner,
  minus,
  plus,
  pointAt,
  type Radius,
  times,
  type tubeShape,
} from './dense-tube.js';

/** Distance between the points tubes are judged by, mm. */
export const DENSE_STEP = 2;

/** Gaps measured on points are wrong by less than this, mm, and the program's own gaps by less than 0.015 mm. */
export const DENSE_ERROR = 0.06;

/** The tubes of a header by cylinder, as intersection points and radii. */
export type Tubes = ReadonlyMap<number, ControlPolygon>;

/** How exactly ends and lengths must be met, and how much gaps may fall short of the plan, mm. */
export interface Judged {
  readonly ends: number;
  readonly gaps: number;
}

export const AS_PRINTED: Judged = { ends: 1e-9, gaps: DENSE_ERROR };

/**
 * Everything that is wrong with a set of primaries under a plan, in words; empty when nothing is. Judged by the plan's demands
 * and plain arithmetic on dense points: what the router believes about its routes does not enter. Primaries only.
 */
export function routeFaults(plan: Plan, tubes: Tubes, judged: Judged = AS_PRINTED): string[] {
  const faults: string[] = [];
  const wrong = (text: string): void => void faults.push(text);
  const missing = plan.ports.filter((p) => !tubes.has(p.cylinder));
  if (missing.length > 0 || tubes.size !== plan.ports.length) return [`${missing.length} primaries are missing`];
  const dense = new Map([...tubes].map(([c, t]) => [c, denseTube(t, DENSE_STEP)]));
  const taken = new Set<string>();
  for (const [cylinder, tube] of dense) {
    const who = `cylinder ${cylinder}`;
    const inlet = inletOf(plan, cylinder, tube);
    if (taken.has(inlet.name)) wrong(`${who} ends at ${inlet.name}, which is taken`);
    taken.add(inlet.name);
    for (const f of endFaults(plan, cylinder, tube, inlet.frame, judged)) wrong(`${who}: ${f}`);
    for (const f of [...shapeFaults(plan, cylinder, tube), ...selfFaults(plan, tube, judged)]) wrong(`${who}: ${f}`);
  }
  const all = [...dense];
  all.forEach(([a, ta], i) => {
    for (const [b, tb] of all.slice(i + 1)) {
      for (const f of pairFaults(plan, a, ta, b, tb, judged)) wrong(`cylinders ${a} and ${b}: ${f}`);
    }
  });
  for (const space of spaceOf(plan)) {
    for (const [cylinder, tube] of dense) {
      const gap = spaceGap(space, cylinder, tube, plan);
      if (gap < space.limit - judged.gaps) wrong(`cylinder ${cylinder} and ${space.name}: ${gap} of ${space.limit}`);
    }
  }
  return faults;
}

/** Inlets of a collector of primaries: on a ring about its axis, leaning inwards. */
export function ringInlets(plan: Plan, collector: number): Frame[] {
  const c = plan.collectors[collector]!;
  const n = c.cylinders.length;
  if (n === 1) return [c.frame];
  const od = Math.max(plan.tube.od, ...plan.tube.steps.map((s) => s.od));
  const ring = (od + c.inletGap) / (2 * Math.sin(Math.PI / n));
  const { origin, x, y, z } = c.frame;
  return c.cylinders.map((_, i) => {
    const a = (2 * Math.PI * i) / n;
    const out = plus(times(x, Math.cos(a)), y, Math.sin(a));
    const round = plus(times(y, Math.cos(a)), x, -Math.sin(a));
    const axis = plus(times(z, Math.cos(c.mergeHalfAngle)), out, -Math.sin(c.mergeHalfAngle));
    const outwards: Vec3 = plus(times(out, Math.cos(c.mergeHalfAngle)), z, Math.sin(c.mergeHalfAngle));
    return { origin: plus(origin, out, ring), x: outwards, y: round, z: axis };
  });
}

export const collectorOf = (plan: Plan, cylinder: number): number =>
  plan.collectors.findIndex((c) => c.cylinders.includes(cylinder));

/** Least first straight of a primary: through the flange, and on. */
export function leastFirst(plan: Plan, cylinder: number): number {
  const port = plan.ports.find((p) => p.cylinder === cylinder)!;
  return plan.flange.thickness / inner(port.frame.z, plan.heads[port.head]!.frame.z) + plan.tube.minStraightPort;
}

function inletOf(plan: Plan, cylinder: number, tube: DenseTube): { name: string; frame: Frame } {
  const c = collectorOf(plan, cylinder);
  const end = tube.polygon.points.at(-1)!;
  const far = ringInlets(plan, c).map((frame, i) => ({
    frame,
    name: `inlet ${i + 1} of ${c}`,
    away: Math.hypot(...minus(frame.origin, end)),
  }));
  return far.reduce((best, i) => (i.away < best.away ? i : best));
}

function endFaults(plan: Plan, cylinder: number, tube: DenseTube, inlet: Frame, { ends }: Judged): string[] {
  const { points } = tube.polygon;
  const port = plan.ports.find((p) => p.cylinder === cylinder)!.frame;
  const { length: target, band } = plan.runners;
  const off: [string, number][] = [
    ['starts off the port by', Math.hypot(...minus(points[0]!, port.origin))],
    ['starts off the port axis by', Math.hypot(...minus(tube.directions[0]!, port.z))],
    ['ends off the inlet by', Math.hypot(...minus(points.at(-1)!, inlet.origin))],
    ['ends off the inlet axis by', Math.hypot(...minus(tube.directions.at(-1)!, inlet.z))],
    ['misses the length by', band ? 0 : Math.abs(tube.length - target)],
  ];
  return off.filter(([, d]) => !(d <= ends)).map(([what, d]) => `${what} ${d}`);
}

/** Straights and bend angles, those of the halves of a U-bend taken as one. */
export function shapeFaults(
  plan: Plan,
  cylinder: number,
  tube: ReturnType<typeof tubeShape> & { polygon: ControlPolygon },
): string[] {
  const faults: string[] = [];
  const { straights, angles, polygon } = tube;
  const stock: readonly StockBend[] = [plan.tube, ...plan.tube.steps].flatMap((t) => t.bends);
  let turned = 0;
  straights.forEach((s, i) => {
    const half = i > 0 && i < straights.length - 1 && isHalf(tube, i);
    const least =
      i === 0
        ? leastFirst(plan, cylinder)
        : i === straights.length - 1
          ? plan.tube.minStraightInlet
          : plan.tube.minStraight;
    if (!half && s < least - 1e-6) faults.push(`straight ${i + 1} is ${s} of ${least}`);
    if (i === straights.length - 1) return;
    turned = half ? turned + angles[i]! : angles[i]!;
    const most = Math.max(0, ...stock.filter((b) => Math.abs(b.clr - polygon.clr[i]!) < 1e-6).map((b) => b.maxAngle));
    if (turned > most + 1e-6) faults.push(`bend ${i + 1} turns ${turned} of ${most} rad`);
  });
  return faults;
}

/** True when nothing lies between two bends of one radius that turn the same way in one plane. */
function isHalf(
  { straights, directions, polygon }: Pick<DenseTube, 'straights' | 'directions' | 'polygon'>,
  i: number,
): boolean {
  if (Math.abs(straights[i]!) > 1e-6 || Math.abs(polygon.clr[i - 1]! - polygon.clr[i]!) > 1e-9) return false;
  const turn = (u: Vec3, v: Vec3): Vec3 => {
    const n: Vec3 = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
    return times(n, 1 / Math.hypot(...n));
  };
  const [a, b] = [turn(directions[i - 1]!, directions[i]!), turn(directions[i]!, directions[i + 1]!)];
  return inner(a, b) > 1 - 1e-6;
}

/** Radius of the tube at a running length: at the joint of a step, which may wander, the smaller one. */
export function radiusAt(plan: Plan, run: number): number {
  const steps = plan.tube.steps.filter((s) => run > s.at + s.within);
  return (steps.at(-1)?.od ?? plan.tube.od) / 2;
}

const radiusOf =
  (plan: Plan): Radius =>
  (run) =>
    radiusAt(plan, run);

/** Two places of one tube further apart along it than three diameters are two passes of it. */
function selfFaults(plan: Plan, tube: DenseTube, { gaps }: Judged): string[] {
  const od = 2 * radiusAt(plan, Number.POSITIVE_INFINITY);
  const limit = Math.min(plan.runners.clearance, plan.tube.od / 4);
  const gap = denseGap(tube, tube, radiusOf(plan), (a, b) => b - a > 3 * od);
  return gap < limit - gaps ? [`two passes of it stand ${gap} of ${limit} apart`] : [];
}

function pairFaults(plan: Plan, a: number, ta: DenseTube, b: number, tb: DenseTube, { gaps }: Judged): string[] {
  const { clearance } = plan.runners;
  const c = collectorOf(plan, a);
  const shared = c === collectorOf(plan, b) ? problemOf(plan, undefined, []).collectors[c]! : null;
  const near = (t: DenseTube, run: number): boolean => shared !== null && t.length - run < shared.runIn;
  const main = denseGap(ta, tb, radiusOf(plan), (ra, rb) => !(near(ta, ra) && near(tb, rb)));
  const last = denseGap(ta, tb, radiusOf(plan), (ra, rb) => near(ta, ra) && near(tb, rb));
  const faults: string[] = [];
  if (main < clearance - gaps) faults.push(`they stand ${main} of ${clearance} apart`);
  if (shared && last < Math.min(shared.runInGap, clearance) - gaps) {
    faults.push(`before the inlets they stand ${last} of ${shared.runInGap} apart`);
  }
  return faults;
}

/**
 * Gap to kept-out space. A tube that starts or ends there must move away from it until it stands the limit off; a tube that turns
 * back before is as near as where it turned.
 */
function spaceGap(space: OwnSpace, cylinder: number, tube: DenseTube, plan: Plan): number {
  const n = tube.run.length;
  const gaps = Array.from({ length: n }, (_, i) => space.distance(pointAt(tube, i)) - radiusAt(plan, tube.run[i]!));
  let from = 0;
  let to = n - 1;
  if (space.starts.includes(cylinder)) {
    while (from < to && gaps[from]! < space.limit && gaps[from + 1]! >= gaps[from]! - 1e-6) from++;
  }
  if (space.ends.includes(cylinder)) {
    while (to > from && gaps[to]! < space.limit && gaps[to - 1]! >= gaps[to]! - 1e-6) to--;
  }
  return Math.min(...gaps.slice(from, to + 1));
}
