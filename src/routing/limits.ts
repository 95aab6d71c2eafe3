import { linkDistance } from '../geometry/space/link-distance.js';
import { obstacleDistance } from '../geometry/space/obstacle.js';
import type { Vec3 } from '../geometry/vec3.js';
import { boxesApart, type Chain, chainGap, pointAtRun, type Shape } from './chain.js';
import { type KeptOut, type RouteProblem, type Runner, SELF_SEPARATION, type Section } from './problem.js';

/** Which limit of the plan a route can break. */
export type LimitKind =
  | 'straight'
  | 'angle'
  | 'step'
  | 'self'
  | 'kept-out'
  | 'gap'
  | 'approach'
  | 'run-in'
  | 'length'
  | 'order';

/**
 * Told of every limit looked at: its kind; the tube, or both, as places in the problem's runners (-1 for no second); kept-out space
 * by name or the number of a straight, bend or step from 1; what was found and what is allowed, mm (an angle as its arc, negative).
 */
export type Visit = (
  kind: LimitKind,
  a: number,
  b: number,
  what: string | number | null,
  value: number,
  limit: number,
) => void;

/** Gaps beyond this many clearances no longer matter to the search. */
const COMFORT = 3;

/** What chains may be wrong by, mm: the search keeps this much more than the limits ask. */
export const SEARCH_MARGIN = 0.4;

/** Largest bend angle of a stock with this CLR, rad; 0 when there is none. */
export function maxAngle(section: Section, clr: number): number {
  let most = 0;
  for (const b of section.stock) if (Math.abs(b.clr - clr) < 1e-6) most = Math.max(most, b.maxAngle);
  return most;
}

/** Visits every limit one tube has by itself. `index` is its runner's place in the problem. */
export function visitOwn(
  problem: RouteProblem,
  index: number,
  shape: Shape,
  clr: readonly number[],
  visit: Visit,
): void {
  const runner = problem.runners[index]!;
  const { straights, angles, joined } = shape;
  const last = straights.length - 1;
  for (let i = 0; i <= last; i++) {
    if (joined[i]) continue;
    const least = i === 0 ? runner.minFirst : i === last ? problem.minStraightInlet : problem.minStraight;
    visit('straight', index, -1, i + 1, straights[i]!, least);
  }
  for (let i = 0; i < angles.length; i++) {
    let angle = angles[i]!;
    const from = i;
    while (joined[i + 1]) angle += angles[++i]!;
    const most = maxAngle(runner.sections[shape.sectionOf[from]!]!, clr[from]!);
    visit('angle', index, -1, from + 1, -angle * clr[from]!, -most * clr[from]!);
  }
  shape.steps.forEach((s, k) => void visit('step', index, -1, k + 1, -s.blocked, 0));
  if (!shape.drawable) return;
  for (const k of problem.keptOut) {
    visit('kept-out', index, -1, k.name, keptOutGap(problem, runner, k, shape.chain), k.limit + marginOf(k));
  }
  visit('self', index, -1, null, selfGapOf(problem, shape.chain), problem.selfGap + SEARCH_MARGIN);
}

/** A scan's fast distance reads high by a little more than a chain of links, mm. */
const SCAN_MARGIN = 0.3;

/** The most the search keeps beyond any limit, mm. */
export const MOST_MARGIN = SEARCH_MARGIN + SCAN_MARGIN;

const marginOf = (k: KeptOut): number => SEARCH_MARGIN + (k.obstacle.kind === 'mesh' ? SCAN_MARGIN : 0);

/** Gap from a tube's skin to kept-out space, mm, once it has left what it starts on and before it reaches what it ends on. */
function keptOutGap(problem: RouteProblem, runner: Runner, k: KeptOut, chain: Chain): number {
  const cutoff = Math.max(COMFORT * problem.clearance, k.limit + 10);
  if (k.obstacle.kind === 'mesh') return linksGap(k, chain, 0, chain.count - 1, cutoff);
  const far = FAR.length >= chain.count ? FAR : new Float64Array(chain.count);
  for (let i = 0; i < chain.count; i++) far[i] = obstacleDistance(k.obstacle, pointOf(chain, i));
  let from = 0;
  let to = chain.count - 1;
  const need = k.limit + SEARCH_MARGIN;
  if (k.startsOn.includes(runner.id)) {
    while (from < to && far[from + 1]! >= far[from]! - 1e-6) from++;
    const gap = far[from]! - chain.radius[from]!;
    if (gap < need) return gap;
  }
  if (k.endsOn.includes(runner.id)) {
    while (to > from && far[to - 1]! >= far[to]! - 1e-6) to--;
    const gap = far[to]! - chain.radius[to]!;
    if (gap < need) return gap;
  }
  let best = cutoff;
  for (let i = from; i <= to; i++) best = Math.min(best, far[i]! - chain.radius[Math.min(i, to)]!);
  if (k.obstacle.kind === 'half-space') return best;
  for (let i = from; i < to; i++) {
    const link = chain.run[i + 1]! - chain.run[i]!;
    const reach = best + chain.radius[i]!;
    if ((far[i]! + far[i + 1]! - link) / 2 >= reach) continue;
    const d = linkDistance(k.obstacle, pointOf(chain, i), pointOf(chain, i + 1), reach);
    best = Math.min(best, d - chain.radius[i]!);
  }
  return best;
}

/** Least gap of links to kept-out space, mm; `cutoff` when none is nearer. */
function linksGap(k: KeptOut, chain: Chain, from: number, to: number, cutoff: number): number {
  let best = cutoff;
  for (let i = from; i < to; i++) {
    const radius = chain.radius[i]!;
    best = Math.min(best, linkDistance(k.obstacle, pointOf(chain, i), pointOf(chain, i + 1), best + radius) - radius);
  }
  return best;
}

/** Scratch for distances at a chain's points: the search asks for them hundreds of thousands of times. */
const FAR = new Float64Array(512);

const pointOf = (chain: Chain, i: number): Vec3 => [chain.xyz[i * 3]!, chain.xyz[i * 3 + 1]!, chain.xyz[i * 3 + 2]!];

function selfGapOf(problem: RouteProblem, chain: Chain): number {
  let best = COMFORT * problem.clearance;
  for (let i = 0; i + 1 < chain.count; i++) {
    const j = pointAtRun(chain, chain.run[i + 1]! + SELF_SEPARATION * 2 * chain.radius[i]!);
    if (j >= chain.count - 1) break;
    best = chainGap(chain, i, i + 1, chain, j, chain.count - 1, best);
  }
  return best;
}

/** Visits the gaps two tubes owe each other. Those of one collector may stand closer just before its inlets. */
export function visitPair(problem: RouteProblem, a: number, ca: Chain, b: number, cb: Chain, visit: Visit): void {
  const one = problem.runners[a]!;
  const other = problem.runners[b]!;
  const cutoff = COMFORT * problem.clearance;
  const limit = gapLimit(problem, one, other) + SEARCH_MARGIN;
  if (boxesApart(ca, cb, cutoff + widest(one) + widest(other))) {
    visit('gap', a, b, null, cutoff, limit);
    return;
  }
  const endA = ca.count - 1;
  const endB = cb.count - 1;
  if (one.collector !== other.collector) {
    visit('gap', a, b, null, chainGap(ca, 0, endA, cb, 0, endB, cutoff), limit);
    return;
  }
  const { runIn, runInGap, approach } = problem.collectors[one.collector]!;
  const nearA = linkBefore(ca, approach);
  const nearB = linkBefore(cb, approach);
  const lastA = linkBefore(ca, runIn);
  const lastB = linkBefore(cb, runIn);
  const open = chainGap(ca, nearA, endA, cb, 0, nearB, chainGap(ca, 0, nearA, cb, 0, endB, cutoff));
  visit('gap', a, b, null, open, limit);
  const near = chainGap(ca, lastA, endA, cb, nearB, lastB, chainGap(ca, nearA, lastA, cb, nearB, endB, cutoff));
  visit('approach', a, b, null, near, limit);
  const last = chainGap(ca, lastA, endA, cb, lastB, endB, cutoff);
  visit('run-in', a, b, null, last, Math.min(runInGap, limit) - 0.05);
}

/** Gap the skins of two tubes must keep, mm: the plan's clearance, unless one pair is given its own. */
export const gapLimit = (problem: RouteProblem, a: Runner, b: Runner): number =>
  problem.pairClearance?.get(pairKey(a, b)) ?? problem.clearance;

/** The same for either order of two runners. */
export const pairKey = (a: Runner, b: Runner): string => [a.id, b.id].sort().join(' ');

/** Largest outside radius of a tube, mm. */
export const widest = (runner: Runner): number => runner.sections[runner.sections.length - 1]!.radius;

/** Number of the chain's link that begins so many mm before its end. */
const linkBefore = (chain: Chain, back: number): number =>
  back <= 0 ? chain.count - 1 : pointAtRun(chain, chain.run[chain.count - 1]! - back);
