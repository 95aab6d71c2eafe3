import type { Plan } from '../../src/params/plan.js';
import { problemOf } from '../../src/routing/problem.js';
import type { BackwardLayout } from '../support/backward-layouts.js';
import { collectorEnd } from '../support/dense-space.js';
import { leastFirst, ringInlets } from '../support/route-faults.js';

/**
 * A layout as `nlp_peer.py` reads it: the same ends, limits and space. Numbers of bends and radii are those of the routes the layout
 * was built round. `cost` asks for the least bending.
 */
export function peerProblem({ plan, witness, seed }: BackwardLayout, budget: number, cost: boolean) {
  const { tube, runners, flange } = plan;
  const [head] = plan.heads;
  const [collector] = plan.collectors;
  const joining = problemOf(plan, undefined, []).collectors[0]!;
  const face = head!.frame.origin.map((x, i) => x + head!.frame.z[i]! * flange.thickness);
  return {
    seed,
    budget,
    cost,
    turning: runners.weights.turning,
    tightness: runners.weights.tightness,
    inlets: ringInlets(plan, 0).map(({ origin, z }) => ({ origin, axis: z })),
    od: tube.od,
    target: runners.length,
    clearance: runners.clearance,
    selfGap: Math.min(runners.clearance, tube.od / 4),
    minStraight: tube.minStraight,
    minStraightInlet: tube.minStraightInlet,
    runIn: joining.runIn,
    runInGap: joining.runInGap,
    head: {
      kind: 'half-space',
      point: face,
      normal: head!.frame.z,
      limit: Math.min(runners.clearance, tube.minStraightPort),
    },
    collector: {
      ...collectorEnd(plan, collector!),
      kind: 'cylinder',
      limit: Math.min(runners.clearance, tube.minStraightInlet, tube.minStraight),
    },
    keepOuts: plan.keepOuts.map(({ clearance, ...k }) => ({ ...k, limit: clearance })),
    tubes: [...witness].map(([cylinder, polygon]) => {
      const port = plan.ports.find((p) => p.cylinder === cylinder)!.frame;
      return {
        cylinder,
        start: port.origin,
        startAxis: port.z,
        minFirst: leastFirst(plan, cylinder),
        maxAngle: Math.min(2.9, largestAngle(plan)),
        clr: polygon.clr,
      };
    }),
  };
}

const largestAngle = (plan: Plan): number => Math.max(...plan.tube.bends.map((b) => b.maxAngle));
