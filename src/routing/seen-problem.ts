import type { Frame } from '../geometry/frame.js';
import type { GivenRoute, Plan } from '../params/plan.js';
import { type Datum, datumOf } from './datum.js';
import type { AllowedOrders } from './inlet-order.js';
import { compareLists, length7, placeInOrder, STEP_SLACK } from './last-digits.js';
import type { Variation } from './placement.js';
import { placementOf } from './placement.js';
import {
  fixedSpace,
  type Joining,
  type KeptOut,
  problemOf,
  type RouteProblem,
  type Runner,
  reachOf,
} from './problem.js';
import { obstacleInOrder, seenObstacle } from './seen-obstacle.js';
import { seenFrame, seenPoint } from './seen-place.js';

/** A plan set up for routing: where it is looked at from, and its unmoved space in the world and as seen from there. */
export interface Setting {
  readonly plan: Plan;
  readonly datum: Datum;
  readonly space: readonly KeptOut[];
  readonly seenSpace: readonly KeptOut[];
}

/** Sets a plan up for routing: done once, since scans take time. */
export function settingOf(plan: Plan): Setting {
  const space = fixedSpace(plan);
  const datum = datumOf(plan, problemOf(plan, undefined, space));
  return { plan, datum, space, seenSpace: seenSpace(plan, space, datum.frame) };
}

/** The problem of a variation as the search sees it. */
export function problemFor({ plan, datum, seenSpace }: Setting, variation: Variation): RouteProblem {
  return seenProblem(problemOf(plan, placementOf(plan, datum, variation), []), datum, seenSpace);
}

function seenSpace(plan: Plan, space: readonly KeptOut[], frame: Frame): KeptOut[] {
  const reach = reachOf(plan, (p) => seenPoint(frame, p));
  return inOrder(space, frame).map((k) => ({ ...k, obstacle: seenObstacle(k.obstacle, frame, reach) }));
}

function inOrder(space: readonly KeptOut[], frame: Frame): KeptOut[] {
  const looks = new Map(space.map((k) => [k, [...obstacleInOrder(k.obstacle, frame), placeInOrder(k.limit)]]));
  return [...space].sort((a, b) => compareLists(looks.get(a)!, looks.get(b)!));
}

/**
 * A problem as it looks from a datum: in its axes, on length steps, runners, collectors and inlets in its order. Where mirrored
 * plans differ by their hand, frames are of the other hand too: the search only asks for origins and ways. Least straights are a
 * trace longer than the plan's, so that they are kept when ends go back to where they are to the last digit.
 */
function seenProblem(problem: RouteProblem, datum: Datum, space: readonly KeptOut[]): RouteProblem {
  const { frame } = datum;
  const seen = (k: KeptOut): KeptOut => ({ ...k, obstacle: seenObstacle(k.obstacle, frame, NOWHERE) });
  return {
    ...problem,
    runners: datum.runners.map((i) => seenRunner(problem.runners[i]!, datum)),
    collectors: datum.collectors.map((i) => seenJoining(problem.collectors[i]!, frame, datum.inlets[i]!)),
    keptOut: [...space, ...inOrder(problem.keptOut, frame).map(seen)],
    minStraight: problem.minStraight + STEP_SLACK,
    minStraightInlet: problem.minStraightInlet + STEP_SLACK,
  };
}

/** Collectors and their branches are no scans and need no grid. */
const NOWHERE = { from: [0, 0, 0], to: [0, 0, 0] } as const;

function seenRunner(runner: Runner, { frame, collectors, inlets }: Datum): Runner {
  return {
    ...runner,
    collector: collectors.indexOf(runner.collector),
    start: seenFrame(frame, runner.start),
    minFirst: length7(runner.minFirst) + STEP_SLACK,
    given: runner.given && seenGiven(runner.given, frame, inlets[runner.collector]!),
  };
}

const seenGiven = (given: GivenRoute, frame: Frame, inlets: readonly number[]): GivenRoute => ({
  ...given,
  inlet: given.inlet && inlets.indexOf(given.inlet) + 1,
  points: given.points.map((p) => seenPoint(frame, p)),
});

function seenJoining(c: Joining, frame: Frame, inlets: readonly number[]): Joining {
  return {
    ...c,
    inlets: inlets.map((i) => seenFrame(frame, c.inlets[i - 1]!)),
    allowed: seenOrders(c.allowed, inlets),
    runIn: length7(c.runIn),
    runInGap: length7(c.runInGap),
    approach: length7(c.approach),
  };
}

const seenOrders = ({ orders, held, asPlanned }: AllowedOrders, inlets: readonly number[]): AllowedOrders => ({
  orders: orders?.map((order) => inlets.map((inlet) => order[inlet - 1]!)) ?? null,
  held: new Map([...held].map(([key, inlet]) => [key, inlets.indexOf(inlet) + 1])),
  asPlanned,
});
