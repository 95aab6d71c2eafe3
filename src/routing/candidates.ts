import type { Frame } from '../geometry/frame.js';
import type { ControlPolygon } from '../geometry/path/control-polygon.js';
import { add, along, lerp, scale, unit, type Vec3 } from '../geometry/vec3.js';
import { type Shape, shapeOf } from './chain.js';
import { shapeCost, tally } from './cost.js';
import { visitOwn } from './limits.js';
import type { RouteProblem, Section } from './problem.js';
import { normal, type Random, randomDirection } from './random.js';
import { fitLength, type InnerPoint, polygonOf, type Trial } from './trial.js';

/** A trial of the right length with what the search knows of it. */
export interface Candidate {
  /** Index into the problem's runners. */
  readonly runner: number;
  /** Inlet number from 1. */
  readonly inlet: number;
  /** Null for a route given by hand. */
  readonly trial: Trial | null;
  readonly polygon: ControlPolygon;
  readonly shape: Shape;
  /** Cost of the route by itself, broken limits included. */
  readonly cost: number;
  /** Sum of its own shortfalls, mm. */
  readonly short: number;
}

/** The inlet a candidate ends at. */
export const inletOf = (problem: RouteProblem, runner: number, inlet: number): Frame =>
  problem.collectors[problem.runners[runner]!.collector]!.inlets[inlet - 1]!;

/**
 * A trial fitted to the target length and weighed; null when its line of shapes has none of that length. Where the tube grows,
 * bends beyond the step take radii that the larger tube has.
 */
export function candidateOf(problem: RouteProblem, runner: number, inlet: number, trial: Trial): Candidate | null {
  const { start, target, sections } = problem.runners[runner]!;
  const end = inletOf(problem, runner, inlet);
  const fitted = fitLength(trial, start, end, target);
  if (!fitted) return null;
  const c = weigh(problem, runner, inlet, fitted, polygonOf(fitted, start, end));
  if (sections.length === 1) return c;
  const clr = stockedRadii(fitted, c.shape, sections);
  if (!clr) return c;
  const again = fitLength({ ...fitted, clr }, start, end, target);
  return again ? weigh(problem, runner, inlet, again, polygonOf(again, start, end)) : c;
}

/** The radii of a trial with those its sections do not stock replaced by the nearest they do; null when all are stocked. */
function stockedRadii(trial: Trial, shape: Shape, sections: readonly Section[]): number[] | null {
  let changed = false;
  let bend = 0;
  const clr = trial.clr.map((r, i) => {
    const { stock } = sections[shape.sectionOf[bend]!]!;
    bend += trial.inner[i - 1]?.u == null ? 1 : 2;
    if (stock.some((b) => Math.abs(b.clr - r) < 1e-6)) return r;
    changed = true;
    return stock.reduce((best, b) => (Math.abs(b.clr - r) < Math.abs(best - r) ? b.clr : best), stock[0]!.clr);
  });
  return changed ? clr : null;
}

/** Cost and shortfalls of a polygon as it is. */
export function weigh(
  problem: RouteProblem,
  runner: number,
  inlet: number,
  trial: Trial | null,
  polygon: ControlPolygon,
): Candidate {
  const { collector, sections } = problem.runners[runner]!;
  const { runIn, approach } = problem.collectors[collector]!;
  const shape = shapeOf(polygon, sections, [approach, runIn]);
  const sum = tally(problem);
  visitOwn(problem, runner, shape, polygon.clr, sum.visit);
  const lost = shape.drawable ? 0 : 1e6;
  return {
    runner,
    inlet,
    trial,
    polygon,
    shape,
    cost: sum.cost + shapeCost(problem, problem.runners[runner]!, shape, polygon.clr) + lost,
    short: sum.short + lost,
  };
}

/** Trials in one round over all inlets of a tube, by number of inner points (bends less two). */
const TRIALS: readonly (readonly [inner: number, trials: number])[] = [
  [0, 30],
  [1, 180],
  [2, 240],
  [3, 70],
];

/** Kept candidates differ in some point by at least this, mm, or in their number of bends. */
const DIFFERENT = 20;

/** Random candidates for one tube and inlet, the best and mutually different first. `share` is the inlet's part of the trials. */
export function sampleCandidates(
  problem: RouteProblem,
  runner: number,
  inlet: number,
  random: Random,
  share: number,
  keep: number,
  goOn: () => boolean,
): Candidate[] {
  const found: Candidate[] = [];
  for (const [inner, trials] of TRIALS) {
    for (let i = 0; i < trials * share && (i % 16 > 0 || goOn()); i++) {
      const c = repaired(problem, runner, inlet, randomTrial(problem, runner, inlet, inner, random));
      if (c) found.push(c);
    }
  }
  return different(found, keep);
}

/** The cheapest candidates that differ from each other. */
export function different(found: readonly Candidate[], keep: number): Candidate[] {
  const sorted = [...found].sort((a, b) => a.cost - b.cost);
  const kept: Candidate[] = [];
  for (const c of sorted) {
    if (kept.length >= keep) break;
    if (c.shape.drawable && kept.every((k) => apart(k, c))) kept.push(c);
  }
  return kept;
}

function apart(a: Candidate, b: Candidate): boolean {
  if (a.polygon.points.length !== b.polygon.points.length) return true;
  return a.polygon.points.some((p, i) => {
    const q = b.polygon.points[i]!;
    return Math.max(Math.abs(p[0] - q[0]), Math.abs(p[1] - q[1]), Math.abs(p[2] - q[2])) > DIFFERENT;
  });
}

/** How often an inner point is tried as a U-bend. */
const U_BENDS = 0.12;

/** A random trial: legs a little beyond their least, inner points thrown off the line between the first and last bend. */
export function randomTrial(
  problem: RouteProblem,
  runner: number,
  inlet: number,
  inner: number,
  random: Random,
): Trial {
  const { start, target, minFirst, sections } = problem.runners[runner]!;
  const end = inletOf(problem, runner, inlet);
  const clr = randomRadii(sections, inner + 2, random);
  const leg = (least: number, r: number): number =>
    least + r * (0.3 + random()) + (random() < 0.5 ? 0 : -Math.log(1 - random()) * 0.12 * target);
  const fromStart = leg(minFirst, clr[0]!);
  const toInlet = leg(problem.minStraightInlet, clr[clr.length - 1]!);
  const a = along(start.origin, start.z, fromStart);
  const b = along(end.origin, end.z, -toInlet);
  const first = randomDirection(random);
  const reach = 0.25 * target;
  const points = Array.from({ length: inner }, (_, i): InnerPoint => {
    const direction: Vec3 = i === 0 ? first : unit(add(scale(first, normal(random) * 0.8), randomDirection(random)));
    const at = along(lerp(a, b, (i + 1) / (inner + 1)), direction, reach * (0.3 + random()));
    return { at, u: random() < U_BENDS ? 0.7 + random() : null };
  });
  return { fromStart, toInlet, inner: points, clr };
}

/** Mostly the largest radius of the first section's stock, now and then mixed. */
function randomRadii(sections: readonly Section[], count: number, random: Random): number[] {
  const radii = sections[0]!.stock.map((b) => b.clr).sort((x, y) => y - x);
  const mixed = radii.length > 1 && random() < 0.5;
  return Array.from({ length: count }, () => (mixed ? radii[Math.floor(random() * radii.length)]! : radii[0]!));
}

/** A candidate of a trial whose end legs are lengthened until their straights suffice, if that can be. */
function repaired(problem: RouteProblem, runner: number, inlet: number, trial: Trial): Candidate | null {
  let now = trial;
  let best: Candidate | null = null;
  for (let i = 0; i < 4; i++) {
    const c = candidateOf(problem, runner, inlet, now);
    if (!c?.trial) return best;
    if (!best || c.short < best.short) best = c;
    const s = c.shape.straights;
    const first = Math.max(0, problem.runners[runner]!.minFirst - s[0]!);
    const last = Math.max(0, problem.minStraightInlet - s[s.length - 1]!);
    if (first + last < 1e-6 || first + last > 400) return best;
    now = { ...c.trial, fromStart: c.trial.fromStart + first + 1, toInlet: c.trial.toInlet + last + 1 };
  }
  return best;
}
