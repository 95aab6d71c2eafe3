import { type Obstacle, obstacleDistance } from './obstacle.js';
import { type Path, type PathSegment, pointIn, segmentLength } from './path.js';
import { segmentApproach } from './segment-distance.js';
import { DISTANCE_ERROR } from './tolerance.js';
import { lerp, type Vec3 } from './vec3.js';

/** Where a centreline comes closest to something: distance in mm, and the running length there. */
export interface Approach {
  readonly distance: number;
  /** mm from the start of the first path. */
  readonly run: number;
  /** mm from the start of the second path; 0 for an obstacle. */
  readonly otherRun: number;
}

/** A stretch of one segment with its chord, and how far the true curve strays from the chord. */
interface Stretch {
  readonly segment: PathSegment;
  /** Running length of the path at the segment's start. */
  readonly base: number;
  /** Stretch within the segment, mm. */
  readonly from: number;
  readonly to: number;
  readonly p: Vec3;
  readonly q: Vec3;
  readonly sagitta: number;
}

function stretch(segment: PathSegment, base: number, from: number, to: number): Stretch {
  const p = pointIn(segment, from);
  const q = pointIn(segment, to);
  const sagitta = segment.kind === 'straight' ? 0 : segment.clr * (1 - Math.cos((to - from) / segment.clr / 2));
  return { segment, base, from, to, p, q, sagitta };
}

function stretches(path: Path): Stretch[] {
  let base = 0;
  return path.segments.map((s) => {
    const whole = stretch(s, base, 0, segmentLength(s));
    base += whole.to;
    return whole;
  });
}

const halves = (s: Stretch): [Stretch, Stretch] => {
  const middle = (s.from + s.to) / 2;
  return [stretch(s.segment, s.base, s.from, middle), stretch(s.segment, s.base, middle, s.to)];
};

const runAt = (s: Stretch, t: number): number => s.from + (s.to - s.from) * t;

/** A distance that is 0 at most `error` above the smallest, found by splitting stretches whose bound may still win. */
interface Search {
  best: Approach;
}

/**
 * Smallest distance between two centrelines, mm: never below the true one and at most `error` above it.
 * Each arc is bounded by its chord and sagitta, and split only while the bound could still win. With `minSeparation` both paths
 * are the same one and only places further apart than that along it count.
 */
export function pathApproach(a: Path, b: Path, error = DISTANCE_ERROR, minSeparation: number | null = null): Approach {
  const search: Search = { best: { distance: Number.POSITIVE_INFINITY, run: 0, otherRun: 0 } };
  const pairs = stretches(a).flatMap((s) => stretches(b).map((t) => ({ s, t, bound: bound(s, t) })));
  pairs.sort((x, y) => x.bound - y.bound);
  for (const { s, t } of pairs) narrow(search, s, t, error, minSeparation);
  return search.best;
}

const bound = (s: Stretch, t: Stretch): number => segmentApproach(s.p, s.q, t.p, t.q).distance - s.sagitta - t.sagitta;

function narrow(search: Search, s: Stretch, t: Stretch, error: number, minSeparation: number | null): void {
  const near = segmentApproach(s.p, s.q, t.p, t.q);
  if (near.distance - s.sagitta - t.sagitta >= search.best.distance) return;
  if (minSeparation !== null && farthestApart(s, t) < minSeparation) return;
  const run = runAt(s, near.s);
  const otherRun = runAt(t, near.t);
  const counts = minSeparation === null || Math.abs(t.base + otherRun - s.base - run) >= minSeparation;
  if (counts) {
    const d = between(pointIn(s.segment, run), pointIn(t.segment, otherRun));
    if (d < search.best.distance) search.best = { distance: d, run: s.base + run, otherRun: t.base + otherRun };
  }
  const straying = s.sagitta + t.sagitta;
  const separated = minSeparation === null || nearestApart(s, t) >= minSeparation;
  if (straying === 0 && separated) return;
  if (near.distance - straying >= search.best.distance - error) return;
  const long = separated ? s.sagitta >= t.sagitta : s.to - s.from >= t.to - t.from;
  if (!separated && Math.max(s.to - s.from, t.to - t.from) < error) return;
  if (long) for (const h of halves(s)) narrow(search, h, t, error, minSeparation);
  else for (const h of halves(t)) narrow(search, s, h, error, minSeparation);
}

const farthestApart = (s: Stretch, t: Stretch): number =>
  Math.max(Math.abs(t.base + t.to - s.base - s.from), Math.abs(s.base + s.to - t.base - t.from));

function nearestApart(s: Stretch, t: Stretch): number {
  return Math.max(t.base + t.from - s.base - s.to, s.base + s.from - t.base - t.to, 0);
}

const between = (p: Vec3, q: Vec3): number => Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);

/**
 * Smallest signed distance from a centreline to a convex obstacle, mm: never below the true one and at most `error` above it.
 * Along a straight the distance is convex and its minimum is found by golden section; arcs are bounded by chord and sagitta.
 */
export function obstacleApproach(path: Path, obstacle: Obstacle, error = DISTANCE_ERROR): Approach {
  const search: Search = { best: { distance: Number.POSITIVE_INFINITY, run: 0, otherRun: 0 } };
  for (const s of stretches(path)) narrowTo(search, s, obstacle, error);
  return search.best;
}

function narrowTo(search: Search, s: Stretch, obstacle: Obstacle, error: number): void {
  const near = lowestOnChord(s, obstacle);
  if (near.distance - s.sagitta >= search.best.distance) return;
  const run = runAt(s, near.t);
  const d = obstacleDistance(obstacle, pointIn(s.segment, run));
  if (d < search.best.distance) search.best = { distance: d, run: s.base + run, otherRun: 0 };
  if (s.sagitta === 0 || near.distance - s.sagitta >= search.best.distance - error) return;
  for (const h of halves(s)) narrowTo(search, h, obstacle, error);
}

const GOLDEN = (Math.sqrt(5) - 1) / 2;

/** Minimum of the convex distance along a chord, found to 1e-7 of the chord. */
function lowestOnChord(s: Stretch, obstacle: Obstacle): { readonly distance: number; readonly t: number } {
  const f = (t: number): number => obstacleDistance(obstacle, lerp(s.p, s.q, t));
  let lo = 0;
  let hi = 1;
  let a = hi - GOLDEN * (hi - lo);
  let b = lo + GOLDEN * (hi - lo);
  let fa = f(a);
  let fb = f(b);
  while (hi - lo > 1e-7) {
    if (fa <= fb) {
      hi = b;
      b = a;
      fb = fa;
      a = hi - GOLDEN * (hi - lo);
      fa = f(a);
    } else {
      lo = a;
      a = b;
      fa = fb;
      b = lo + GOLDEN * (hi - lo);
      fb = f(b);
    }
  }
  const candidates = [0, (lo + hi) / 2, 1].map((t) => ({ distance: f(t), t }));
  return candidates.reduce((x, y) => (y.distance < x.distance ? y : x));
}
