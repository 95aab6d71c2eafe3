import { obstacleDistance } from '../geometry/obstacle.js';
import type { Vec3 } from '../geometry/vec3.js';
import { type Chain, chainDistance, pointAtRun, type Shape } from './chain.js';
import type { Joining, KeptOut, RouteProblem, Runner } from './problem.js';

export type LimitKind = 'straight' | 'angle' | 'self' | 'kept-out' | 'gap' | 'run-in' | 'length' | 'order';

/** Told of every limit looked at: what it is, where, what was found and what is allowed, mm (an angle as its arc). */
export type Visit = (kind: LimitKind, place: string, value: number, limit: number) => void;

/** Gaps beyond this many clearances no longer matter to the search. */
const COMFORT = 3;

/** What chains may be wrong by, mm: the search keeps this much more than the limits ask. */
export const SEARCH_MARGIN = 0.4;

/** Largest bend angle of the stock with this CLR, rad. */
export function maxAngle(problem: RouteProblem, clr: number): number {
  let most = 0;
  for (const b of problem.stock) if (Math.abs(b.clr - clr) < 1e-6) most = Math.max(most, b.maxAngle);
  return most;
}

/** Visits every limit one primary has by itself. */
export function visitOwn(
  problem: RouteProblem,
  runner: Runner,
  shape: Shape,
  clr: readonly number[],
  visit: Visit,
): void {
  const { straights, angles } = shape;
  const name = `cylinder ${runner.cylinder}`;
  const last = straights.length - 1;
  for (let i = 0; i <= last; i++) {
    const least = i === 0 ? runner.minFirst : i === last ? problem.minStraightInlet : problem.minStraight;
    visit('straight', `${name}, straight ${i + 1}`, straights[i]!, least);
  }
  for (let i = 0; i < angles.length; i++) {
    visit('angle', `${name}, bend ${i + 1}`, -angles[i]! * clr[i]!, -maxAngle(problem, clr[i]!) * clr[i]!);
  }
  if (!shape.drawable) return;
  for (const k of problem.keptOut) {
    visit('kept-out', `${name} and ${k.name}`, keptOutGap(problem, runner, k, shape.chain), k.limit + SEARCH_MARGIN);
  }
  visit('self', name, selfGapOf(problem, shape.chain), problem.selfGap + SEARCH_MARGIN);
}

/** Gap from a primary's skin to kept-out space, mm, once it has left the head or before it reaches its collector. */
function keptOutGap(problem: RouteProblem, runner: Runner, k: KeptOut, chain: Chain): number {
  const cutoff = Math.max(COMFORT * problem.clearance, k.limit + 10);
  const need = problem.radius + k.limit + SEARCH_MARGIN;
  const far = new Float64Array(chain.count);
  for (let i = 0; i < chain.count; i++) far[i] = obstacleDistance(k.obstacle, pointOf(chain, i));
  let from = 0;
  let to = chain.count - 1;
  if (k.startsOn.includes(runner.cylinder)) {
    while (from < to && far[from + 1]! >= far[from]! - 1e-6) from++;
    if (far[from]! < need) return far[from]! - problem.radius;
  }
  if (k.endsOn.includes(runner.cylinder)) {
    while (to > from && far[to - 1]! >= far[to]! - 1e-6) to--;
    if (far[to]! < need) return far[to]! - problem.radius;
  }
  let best = cutoff + problem.radius;
  for (let i = from; i <= to; i++) best = Math.min(best, far[i]!);
  for (let i = from; i < to; i++) {
    const link = chain.run[i + 1]! - chain.run[i]!;
    if (k.obstacle.kind === 'half-space' || (far[i]! + far[i + 1]! - link) / 2 >= best) continue;
    best = Math.min(best, lowestOnLink(k, chain, i, link));
  }
  return best - problem.radius;
}

const pointOf = (chain: Chain, i: number): Vec3 => [chain.xyz[i * 3]!, chain.xyz[i * 3 + 1]!, chain.xyz[i * 3 + 2]!];

/** Smallest distance on a link to within 0.05 mm: thirds of a convex function. */
function lowestOnLink(k: KeptOut, chain: Chain, i: number, link: number): number {
  const p = pointOf(chain, i);
  const q = pointOf(chain, i + 1);
  const f = (t: number): number =>
    obstacleDistance(k.obstacle, [p[0] + (q[0] - p[0]) * t, p[1] + (q[1] - p[1]) * t, p[2] + (q[2] - p[2]) * t]);
  let lo = 0;
  let hi = 1;
  let lowest = Number.POSITIVE_INFINITY;
  while ((hi - lo) * link > 0.05) {
    const a = lo + (hi - lo) / 3;
    const b = hi - (hi - lo) / 3;
    const fa = f(a);
    const fb = f(b);
    lowest = Math.min(lowest, fa, fb);
    if (fa < fb) hi = b;
    else lo = a;
  }
  return lowest;
}

function selfGapOf(problem: RouteProblem, chain: Chain): number {
  const cutoff = COMFORT * problem.clearance + 2 * problem.radius;
  let best = cutoff;
  for (let i = 0; i + 1 < chain.count; i++) {
    const j = pointAtRun(chain, chain.run[i + 1]! + problem.selfSeparation);
    if (j < chain.count - 1) best = chainDistance(chain, i, i + 1, chain, j, chain.count - 1, best);
  }
  return best - 2 * problem.radius;
}

/** Visits the gaps two primaries owe each other. Those of one collector may stand closer just before its inlets. */
export function visitPair(problem: RouteProblem, a: Runner, ca: Chain, b: Runner, cb: Chain, visit: Visit): void {
  const od = 2 * problem.radius;
  const cutoff = od + COMFORT * problem.clearance;
  const name = `cylinders ${Math.min(a.cylinder, b.cylinder)} and ${Math.max(a.cylinder, b.cylinder)}`;
  const shared = a.collector === b.collector ? problem.collectors[a.collector]! : null;
  const mainA = mainEnd(ca, shared);
  const mainB = mainEnd(cb, shared);
  let gap = chainDistance(ca, 0, mainA, cb, 0, cb.count - 1, cutoff);
  gap = chainDistance(ca, mainA, ca.count - 1, cb, 0, mainB, gap);
  visit('gap', name, gap - od, problem.clearance + SEARCH_MARGIN);
  if (!shared) return;
  const runIn = chainDistance(ca, mainA, ca.count - 1, cb, mainB, cb.count - 1, cutoff);
  visit('run-in', `${name} before the inlets`, runIn - od, shared.runInGap - 0.05);
}

/** Number of the chain's link at which the run-in of its collector begins. */
function mainEnd(chain: Chain, shared: Joining | null): number {
  if (!shared || shared.runIn <= 0) return chain.count - 1;
  return pointAtRun(chain, chain.run[chain.count - 1]! - shared.runIn);
}
