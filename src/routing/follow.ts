import { pointInto } from '../geometry/frame.js';
import { bendAngles, type ControlPolygon, straightLengths } from '../geometry/path/control-polygon.js';
import { JOIN_TOLERANCE } from '../geometry/tolerance.js';
import { distance } from '../geometry/vec3.js';
import type { Plan } from '../params/plan.js';
import { type Candidate, candidateOf, sampleCandidates } from './candidates.js';
import { choose } from './choose.js';
import type { Datum } from './datum.js';
import { inletsOf } from './inlet-order.js';
import { plannedVariation } from './placement.js';
import type { RouteProblem } from './problem.js';
import { type Random, seededRandom } from './random.js';
import { refine } from './refine.js';
import { givenCandidate, holds } from './search.js';
import { problemFor, settingOf } from './seen-problem.js';
import { type RouteSet, setOf } from './solve.js';
import { type InnerPoint, isOneBend, type Trial } from './trial.js';

/** A route as it was before the plan changed. */
export interface EarlierRoute {
  /** Of the tube: cylinder number, or the name of the collector a secondary comes from. */
  readonly id: string;
  readonly inlet: number;
  readonly polygon: ControlPolygon;
}

/** Routes that followed a change, and whether they keep every limit. */
export interface Followed {
  readonly set: RouteSet;
  readonly holds: boolean;
}

/** Work on routes that followed: rounds over all tubes, and moves of each in a round. */
const ROUNDS = 2;
const MOVES = 24;

/** Share of a search's trials for a tube whose earlier form does not do, and how many of them are kept. */
const ANEW = 0.3;
const KEPT = 8;

/**
 * The routes of an earlier, similar plan bent to fit this one: same inlets and, where that does, the same bends; the right length,
 * eased where they break a limit. For a look while a plan is being shaped: a fraction of the work of `solve`, whose routes may be
 * others. Null when a tube cannot follow: its inlet is another tube's now, or no route to it of the length turns up.
 */
export function followRoutes(plan: Plan, earlier: readonly EarlierRoute[]): Followed | null {
  const setting = settingOf(plan);
  const variation = plannedVariation(plan);
  const problem = problemFor(setting, variation);
  const random = seededRandom(plan.runners.seed);
  const seen = earlier.flatMap((e) => seenEarlier(plan, setting.datum, e));
  const options = problem.runners.map((_, i) => optionsOf(problem, i, seen, random));
  if (options.some((list) => list.length === 0)) return null;
  const [choice] = choose(problem, options, 1).map((c) => refine(problem, c, random, ROUNDS, MOVES, () => true));
  if (!choice?.candidates.every(isTube)) return null;
  return { set: setOf(setting, { variation, problem, choice }), holds: holds(problem, choice) };
}

/** An earlier route as it looks from the datum; none where its inlet is no more. */
function seenEarlier(plan: Plan, { frame, inlets }: Datum, { id, inlet, polygon }: EarlierRoute): EarlierRoute[] {
  const into = plan.collectors.findIndex((c) => c.from.includes(id) || c.cylinders.some((n) => String(n) === id));
  const place = inlets[into]?.indexOf(inlet) ?? -1;
  if (place < 0) return [];
  return [{ id, inlet: place + 1, polygon: { ...polygon, points: polygon.points.map((p) => pointInto(frame, p)) } }];
}

/** The route a tube had, bent to fit; where that breaks a limit of its own, fresh ones to the same inlet beside it. */
function optionsOf(
  problem: RouteProblem,
  runner: number,
  earlier: readonly EarlierRoute[],
  random: Random,
): Candidate[] {
  const { id, key, collector, given } = problem.runners[runner]!;
  if (given) return [givenCandidate(problem, runner, given)];
  const { allowed, inlets } = problem.collectors[collector]!;
  const route = earlier.find((e) => e.id === id);
  if (!route || !inletsOf(allowed, key, inlets.length).includes(route.inlet)) return [];
  const trial = trialOf(route.polygon);
  const bent = trial && candidateOf(problem, runner, route.inlet, trial);
  if (bent && bent.short === 0) return [bent];
  const anew = sampleCandidates(problem, runner, route.inlet, random, ANEW, KEPT, () => true);
  return [...(bent ? [bent] : []), ...anew].filter(isTube);
}

/** True when no bends overlap: else there is no path to draw. */
const isTube = ({ shape }: Candidate): boolean =>
  shape.drawable && shape.straights.every((straight) => straight > -JOIN_TOLERANCE);

/** A route as the search handles it: the halves of a U-bend become one. Null for a route of a single bend or none. */
export function trialOf({ points, clr }: ControlPolygon): Trial | null {
  const n = points.length;
  if (n < 4) return null;
  const angles = bendAngles(points);
  const straights = straightLengths({ points, clr });
  const inner: InnerPoint[] = [];
  const radii = [clr[0]!];
  for (let i = 2; i < n - 2; i++) {
    const isU = i + 1 < n - 2 && isOneBend(points, clr, i, straights[i]!);
    inner.push({ at: points[i]!, u: isU ? angles[i - 1]! : null });
    radii.push(clr[i - 1]!);
    if (isU) i++;
  }
  return {
    fromStart: distance(points[0]!, points[1]!),
    toInlet: distance(points[n - 2]!, points[n - 1]!),
    inner,
    clr: [...radii, clr[n - 3]!],
  };
}
