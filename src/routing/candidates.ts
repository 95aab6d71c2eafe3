import type { Frame } from '../geometry/frame.js';
import type { ControlPolygon } from '../geometry/path.js';
import { add, along, lerp, scale, unit, type Vec3 } from '../geometry/vec3.js';
import { type Shape, shapeOf } from './chain.js';
import { shapeCost, tally } from './cost.js';
import { visitOwn } from './limits.js';
import type { RouteProblem, Runner } from './problem.js';
import { normal, type Random } from './random.js';
import { fitLength, polygonOf, randomDirection, type Trial } from './trial.js';

/** A trial of the right length with what the search knows of it. */
export interface Candidate {
  readonly runner: Runner;
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
export const inletOf = (problem: RouteProblem, runner: Runner, inlet: number): Frame =>
  problem.collectors[runner.collector]!.inlets[inlet - 1]!;

/** A trial fitted to the target length and weighed; null when its line of shapes has none of that length. */
export function candidateOf(problem: RouteProblem, runner: Runner, inlet: number, trial: Trial): Candidate | null {
  const end = inletOf(problem, runner, inlet);
  const fitted = fitLength(trial, runner.port, end, problem.target);
  if (!fitted) return null;
  return weigh(problem, runner, inlet, fitted, polygonOf(fitted, runner.port, end));
}

/** Cost and shortfalls of a polygon as it is. */
export function weigh(
  problem: RouteProblem,
  runner: Runner,
  inlet: number,
  trial: Trial | null,
  polygon: ControlPolygon,
): Candidate {
  const shape = shapeOf(polygon, problem.collectors[runner.collector]!.runIn);
  const sum = tally();
  visitOwn(problem, runner, shape, polygon.clr, sum.visit);
  const lost = shape.drawable ? 0 : 1e6;
  return {
    runner,
    inlet,
    trial,
    polygon,
    shape,
    cost: sum.cost + shapeCost(problem, shape, polygon.clr) + lost,
    short: sum.short + lost,
  };
}

/** How many random trials are made per number of inner points (bends less two) in one round. */
const TRIALS: readonly (readonly [inner: number, trials: number])[] = [
  [0, 16],
  [1, 70],
  [2, 90],
  [3, 30],
];

/** Kept candidates differ in their middle by at least this, mm, or in their number of bends. */
const DIFFERENT = 20;

/** Random candidates for one primary and inlet, the best and mutually different first. */
export function sampleCandidates(
  problem: RouteProblem,
  runner: Runner,
  inlet: number,
  random: Random,
  effort: number,
  keep: number,
): Candidate[] {
  const found: Candidate[] = [];
  for (const [inner, trials] of TRIALS) {
    for (let i = 0; i < trials * effort; i++) {
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

/** A random trial: legs a little beyond their least, inner points thrown off the line between the first and last bend. */
export function randomTrial(
  problem: RouteProblem,
  runner: Runner,
  inlet: number,
  inner: number,
  random: Random,
): Trial {
  const end = inletOf(problem, runner, inlet);
  const clr = randomRadii(problem, inner + 2, random);
  const leg = (least: number, r: number): number =>
    least + r * (0.3 + random()) + (random() < 0.5 ? 0 : -Math.log(1 - random()) * 0.12 * problem.target);
  const fromPort = leg(runner.minFirst, clr[0]!);
  const toInlet = leg(problem.minStraightInlet, clr[clr.length - 1]!);
  const a = along(runner.port.origin, runner.port.z, fromPort);
  const b = along(end.origin, end.z, -toInlet);
  const first = randomDirection(random);
  const reach = 0.25 * problem.target;
  const points = Array.from({ length: inner }, (_, i): Vec3 => {
    const direction = i === 0 ? first : unit(add(scale(first, normal(random) * 0.8), randomDirection(random)));
    return along(lerp(a, b, (i + 1) / (inner + 1)), direction, reach * (0.3 + random()));
  });
  return { fromPort, toInlet, inner: points, clr };
}

/** Mostly the largest radius of the stock, now and then mixed. */
function randomRadii(problem: RouteProblem, count: number, random: Random): number[] {
  const radii = problem.stock.map((b) => b.clr).sort((x, y) => y - x);
  const mixed = radii.length > 1 && random() < 0.5;
  return Array.from({ length: count }, () => (mixed ? radii[Math.floor(random() * radii.length)]! : radii[0]!));
}

/** A candidate of a trial whose end legs are lengthened until their straights suffice, if that can be. */
function repaired(problem: RouteProblem, runner: Runner, inlet: number, trial: Trial): Candidate | null {
  let now = trial;
  let best: Candidate | null = null;
  for (let i = 0; i < 4; i++) {
    const c = candidateOf(problem, runner, inlet, now);
    if (!c?.trial) return best;
    if (!best || c.short < best.short) best = c;
    const s = c.shape.straights;
    const first = Math.max(0, runner.minFirst - s[0]!);
    const last = Math.max(0, problem.minStraightInlet - s[s.length - 1]!);
    if (first + last < 1e-6 || first + last > 400) return best;
    now = { ...c.trial, fromPort: c.trial.fromPort + first + 1, toInlet: c.trial.toInlet + last + 1 };
  }
  return best;
}
