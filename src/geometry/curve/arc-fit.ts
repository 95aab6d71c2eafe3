import type { Side } from '../outline/sides.js';
import type { Vec2 } from '../vec2.js';
import { bestFit, type Fit, holds, type Run, runOf, sideOfFit } from './arc-pencil.js';

/** Lines and arcs through some of a run's points, and the largest distance of any other of them from the curve, mm. */
export interface FittedRun {
  readonly sides: readonly Side[];
  readonly deviation: number;
}

/** How many points on, past one that cannot be reached, another is tried: noise at a single end is no end of an arc. */
const PROBE = 12;

/** Places tried for each joint between where the fits from both ends would have it; fewer in a long run. */
const CHOICES = 12;

/** Places a closed run is begun at, to find where one side ends; fewer in a long run. */
const STARTS = 5;

/** Points above which a run is long. */
const LONG = 1000;

/**
 * The fewest lines and arcs, as far as a search from both ends tells, that run from the first point to the last. Guaranteed:
 * every side ends at given points; every point lies within `tolerance` mm of the side that stands for it, in order; and no side
 * leaves the straight lines between the points by more, but where six or more points stand on one arc that turns by 12 degrees at
 * most from each to the next. So corners stay. Throws RangeError for fewer than two points or a tolerance that is not positive.
 */
export function fitArcs(points: readonly Vec2[], tolerance: number): FittedRun {
  if (points.length < 2 || !(tolerance > 0)) {
    throw new RangeError(`a fit needs two points and a tolerance, got ${points.length} and ${tolerance} mm`);
  }
  const run = runOf(points);
  return sidesAt(run, joints(run, tolerance), tolerance);
}

/** The same for a closed run of three points or more; the first is not repeated. It may be begun at any of its points. */
export function fitClosedArcs(points: readonly Vec2[], tolerance: number): FittedRun {
  if (points.length < 3) throw new RangeError(`a closed run needs three points, got ${points.length}`);
  let best: FittedRun | null = null;
  let starts = [sharpest(points)];
  const tried = new Set<number>();
  const tries = Math.max(1, Math.min(STARTS, Math.floor((STARTS * LONG) / points.length)));
  for (let n = 0; n < tries && starts.length > 0; n++) {
    const first = starts.pop()!;
    tried.add(first);
    const turned = [...points.slice(first), ...points.slice(0, first + 1)];
    const run = runOf(turned);
    const at = joints(run, tolerance);
    const fitted = sidesAt(run, at, tolerance);
    const better = best === null || isBetter(fitted, best);
    if (better) {
      best = fitted;
      const inner = at.slice(1, -1).map((i) => (i + first) % points.length);
      starts = [inner[Math.floor(inner.length / 3)], inner[Math.floor(inner.length / 2)], inner.at(-1)].filter(
        (i): i is number => i !== undefined && !tried.has(i),
      );
    }
  }
  return best!;
}

const isBetter = (a: FittedRun, b: FittedRun): boolean =>
  a.sides.length < b.sides.length || (a.sides.length === b.sides.length && a.deviation < b.deviation);

/** The point of a closed run where it turns most. */
function sharpest(points: readonly Vec2[]): number {
  let best = 0;
  let most = -1;
  points.forEach((p, i) => {
    const a = points.at(i - 1)!;
    const b = points[(i + 1) % points.length]!;
    const [ux, uy, vx, vy] = [p[0] - a[0], p[1] - a[1], b[0] - p[0], b[1] - p[1]];
    const turn = Math.abs(Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy));
    if (turn > most) [best, most] = [i, turn];
  });
  return best;
}

function sidesAt(run: Run, at: readonly number[], tolerance: number): FittedRun {
  const fits = at.slice(1).map((to, k) => bestFit(run, at[k]!, to, tolerance)!);
  return {
    sides: fits.map((fit, k) => sideOfFit(run, at[k]!, at[k + 1]!, fit)),
    deviation: Math.max(...fits.map((f) => f.deviation)),
  };
}

/** Where one side ends and the next begins, first and last point included. */
function joints(run: Run, tolerance: number): readonly number[] {
  const forward = reached(run, tolerance);
  const last = run.x.length - 1;
  const backward = reached(runReversed(run), tolerance)
    .map((i) => last - i)
    .reverse();
  if (backward.length < forward.length) return backward;
  if (backward.length > forward.length) return forward;
  return chosen(run, forward, backward, tolerance);
}

const runReversed = (run: Run): Run => runOf(Array.from(run.x, (x, i): Vec2 => [x, run.y[i]!]).reverse());

/** From the first point as far as one side goes, and on from there. */
function reached(run: Run, tolerance: number): number[] {
  const last = run.x.length - 1;
  const ok = (from: number, to: number) => holds(run, from, to, tolerance);
  const at = [0];
  while (at[at.length - 1]! < last) at.push(longest(at[at.length - 1]!, last, ok));
  return at;
}

/** The furthest point one side reaches: by doubling, then halving, then trying a few points past it. */
function longest(from: number, last: number, ok: (from: number, to: number) => boolean): number {
  let good = from + 1;
  for (;;) {
    let step = 1;
    while (good + step <= last && ok(from, good + step)) {
      good += step;
      step *= 2;
    }
    let bad = Math.min(good + step, last + 1);
    while (bad - good > 1) {
      const middle = Math.floor((good + bad) / 2);
      if (ok(from, middle)) good = middle;
      else bad = middle;
    }
    let further = -1;
    for (let to = Math.min(good + PROBE, last); to > good && further < 0; to--) if (ok(from, to)) further = to;
    if (further < 0) return good;
    good = further;
  }
}

/** Of all joints between those of both searches the ones whose sides deviate least: the sum of squares, by dynamic programming. */
function chosen(
  run: Run,
  forward: readonly number[],
  backward: readonly number[],
  tolerance: number,
): readonly number[] {
  const most = Math.max(2, Math.min(CHOICES, Math.floor((CHOICES * LONG) / run.x.length)));
  const places = forward.map((f, k) => placesBetween(Math.min(backward[k]!, f), f, most));
  let costs = new Map<number, { readonly cost: number; readonly path: readonly number[] }>([
    [0, { cost: 0, path: [0] }],
  ]);
  for (const choices of places.slice(1)) {
    const next = new Map<number, { readonly cost: number; readonly path: readonly number[] }>();
    for (const to of choices) {
      for (const [from, { cost, path }] of costs) {
        const known = next.get(to)?.cost ?? Number.POSITIVE_INFINITY;
        if (from >= to || cost >= known) continue;
        const fit: Fit | null = bestFit(run, from, to, tolerance);
        if (fit === null || cost + fit.deviation ** 2 >= known) continue;
        next.set(to, { cost: cost + fit.deviation ** 2, path: [...path, to] });
      }
    }
    costs = next;
  }
  return costs.get(run.x.length - 1)?.path ?? forward;
}

function placesBetween(low: number, high: number, most: number): readonly number[] {
  const step = Math.max(1, Math.ceil((high - low) / (most - 1)));
  const places = [high];
  for (let p = high - step; p > low; p -= step) places.push(p);
  if (low < high) places.push(low);
  return places;
}
