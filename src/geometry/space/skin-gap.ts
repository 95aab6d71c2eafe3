import { pointIn } from '../path/path.js';
import { scanLinkDistance } from '../scan/distance.js';
import { FAR } from '../scan/field-surface.js';
import { DISTANCE_ERROR } from '../tolerance.js';
import { distance, type Vec3 } from '../vec3.js';
import { nearestOnLink } from './link-distance.js';
import { type Obstacle, obstacleDistance } from './obstacle.js';
import { segmentApproach } from './segment-distance.js';
import { halvesOf, runAt, runNearest, type Stretch, stretchesOf, type TubeRun } from './tube-stretch.js';

export type { TubeRun } from './tube-stretch.js';

/** Where the skin of a tube comes closest to something: the gap in mm, negative where they overlap, and the running length there. */
export interface SkinGap {
  readonly gap: number;
  /** mm from the start of the first tube. */
  readonly run: number;
  /** mm from the start of the second tube; 0 for an obstacle. */
  readonly otherRun: number;
}

const NOTHING: SkinGap = { gap: Number.POSITIVE_INFINITY, run: 0, otherRun: 0 };

/** The least found so far. */
interface Search {
  best: SkinGap;
}

/** A pair of stretches: where their chords are nearest, parts from 0 to 1, and what no gap between them is below, mm. */
interface Pair {
  readonly s: Stretch;
  readonly t: Stretch;
  readonly partS: number;
  readonly partT: number;
  readonly bound: number;
}

/**
 * Smallest gap between the skins of two tubes, mm: never below the true one and at most `error` above it. Where a radius ends or
 * changes, a tube counts as rounded by a ball of the larger radius, so that steps and ends are never underrated.
 * Each arc is bounded by a chord and how far it strays from it, and split only while the bound could still win. With
 * `minSeparation` both tubes are the same one and only places further apart than that along it count.
 */
export function skinGap(
  a: TubeRun,
  b: TubeRun,
  error: number = DISTANCE_ERROR,
  minSeparation: number | null = null,
): SkinGap {
  const search: Search = { best: NOTHING };
  const ofA = stretchesOf(a);
  const ofB = minSeparation === null ? stretchesOf(b) : ofA;
  const pairs: Pair[] = [];
  for (const [i, s] of ofA.entries()) {
    for (const t of minSeparation === null ? ofB : ofA.slice(i)) pairs.push(pairOf(s, t));
  }
  pairs.sort((x, y) => x.bound - y.bound);
  for (const pair of pairs) {
    if (minSeparation === null) narrow(search, pair, error);
    else narrowApart(search, pair, error, minSeparation);
  }
  return search.best;
}

function pairOf(s: Stretch, t: Stretch): Pair {
  const near = segmentApproach(s.p, s.q, t.p, t.q);
  return { s, t, partS: near.s, partT: near.t, bound: near.distance - s.stray - t.stray - s.radius - t.radius };
}

/** Takes up the gap at two places, runs within their segments, when it is the least so far. True when it was. */
function take(search: Search, s: Stretch, run: number, t: Stretch, otherRun: number): boolean {
  const gap = distance(pointIn(s.segment, run), pointIn(t.segment, otherRun)) - s.radius - t.radius;
  if (gap >= search.best.gap) return false;
  search.best = { gap, run: s.base + run, otherRun: t.base + otherRun };
  return true;
}

function narrow(search: Search, { s, t, partS, partT, bound }: Pair, error: number): void {
  if (bound >= search.best.gap - error) return;
  let run = runAt(s, partS);
  let otherRun = runAt(t, partT);
  // from a new least place to the nearest one on the other tube and back: soon at the bottom, and the bounds prune sooner
  for (let i = 0; i < 4 && take(search, s, run, t, otherRun); i++) {
    run = runNearest(s, pointIn(t.segment, otherRun));
    otherRun = runNearest(t, pointIn(s.segment, run));
  }
  if (s.stray + t.stray === 0 || bound >= search.best.gap - error) return;
  const parts = s.stray >= t.stray ? halvesOf(s).map((h) => pairOf(h, t)) : halvesOf(t).map((h) => pairOf(s, h));
  const [x, y] = parts as [Pair, Pair];
  const [first, second] = x.bound <= y.bound ? [x, y] : [y, x];
  narrow(search, first, error);
  narrow(search, second, error);
}

/** As `narrow`, for two places of one tube at least `minSeparation` apart along it. */
function narrowApart(search: Search, pair: Pair, error: number, minSeparation: number): void {
  const { s, t, partS, partT, bound } = pair;
  const farthest = t.base + t.to - s.base - s.from;
  const nearest = t.base + t.from - s.base - s.to;
  if (farthest < minSeparation || bound >= search.best.gap - error) return;
  if (nearest >= minSeparation) {
    narrow(search, pair, error);
    return;
  }
  if (s.segment === t.segment) {
    // along one straight or one bend of less than half a turn, the least separation gives the least distance
    const apart = Math.max(nearest, minSeparation);
    const run = Math.max(s.from, t.from - apart);
    take(search, s, run, t, run + apart);
    return;
  }
  const run = runAt(s, partS);
  const otherRun = runAt(t, partT);
  if (t.base + otherRun - s.base - run >= minSeparation) take(search, s, run, t, otherRun);
  else {
    // the far ends of both count even when where the chords are nearest does not
    take(search, s, s.from, t, t.to);
  }
  if (Math.max(s.to - s.from, t.to - t.from) < error / 2) return;
  const parts =
    s.to - s.from >= t.to - t.from ? halvesOf(s).map((h) => pairOf(h, t)) : halvesOf(t).map((h) => pairOf(s, h));
  for (const p of parts.sort((x, y) => x.bound - y.bound)) narrowApart(search, p, error, minSeparation);
}

/**
 * Smallest gap between the skin of a tube and an obstacle, mm, negative where they overlap: never below the true one and at most
 * `error` above it. A scan has no inside: at its surface the distance of the centreline is 0, and a tube that lies wholly behind
 * it counts as clear. Steps and ends count as in `skinGap`.
 */
export function skinGapTo(a: TubeRun, obstacle: Obstacle, error: number = DISTANCE_ERROR): SkinGap {
  const search: Search = { best: NOTHING };
  const promising = stretchesOf(a).map((s) => ({ s, likely: likelyGap(s, obstacle) }));
  promising.sort((x, y) => x.likely - y.likely);
  for (const { s } of promising) narrowTo(search, s, obstacle, error);
  return search.best;
}

/** A guess at the gap of a stretch, mm: what is likely to be least is looked at first. */
function likelyGap(s: Stretch, o: Obstacle): number {
  const from =
    o.kind === 'mesh'
      ? scanLinkDistance(o.field, s.p, s.q, FAR)
      : (obstacleDistance(o, s.p) + obstacleDistance(o, s.q) - distance(s.p, s.q)) / 2;
  return from - s.stray - s.radius;
}

function narrowTo(search: Search, s: Stretch, o: Obstacle, error: number): void {
  // the chord is known to a quarter of the error; what cannot be undercut by the whole of it is not looked at
  const worth = search.best.gap - error + s.stray + s.radius;
  const near =
    o.kind === 'mesh' ? o.field.scan.approach(s.p, s.q, worth) : nearestOnLink(o, s.p, s.q, error / 4, worth);
  if (!near) return;
  const run = runAt(s, near.t);
  const gap = exactDistance(o, pointIn(s.segment, run), search.best.gap + s.radius) - s.radius;
  if (gap < search.best.gap) search.best = { gap, run: s.base + run, otherRun: 0 };
  if (s.stray === 0 || near.distance - error / 4 - s.stray - s.radius >= search.best.gap - error) return;
  for (const h of halvesOf(s)) narrowTo(search, h, o, error);
}

/** True distance of a point, mm; from a scan `within` when nothing is nearer. */
function exactDistance(o: Obstacle, p: Vec3, within: number): number {
  return o.kind === 'mesh' ? (o.field.scan.approach(p, p, within)?.distance ?? within) : obstacleDistance(o, p);
}
