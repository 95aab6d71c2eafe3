import type { Frame } from '../../src/geometry/frame.js';
import type { Plan } from '../../src/params/plan.js';
import { problemOf } from '../../src/routing/problem.js';
import type { BackwardLayout } from '../support/backward-layouts.js';
import { collectorEnd } from '../support/dense-space.js';
import { minus } from '../support/dense-tube.js';
import { leastFirst, ringInlets } from '../support/route-faults.js';

/**
 * A layout as `nlp_peer.py` reads it: the same ends, limits and space. Inlets, numbers of bends and radii are those of the routes the
 * layout was built round, so that the solver is given a combination that is known to work.
 */
export function peerProblem({ plan, witness, seed }: BackwardLayout, budget: number) {
  const { tube, runners, flange } = plan;
  const [head] = plan.heads;
  const [collector] = plan.collectors;
  const joining = problemOf(plan, undefined, []).collectors[0]!;
  const inlets = ringInlets(plan, 0);
  const face = head!.frame.origin.map((x, i) => x + head!.frame.z[i]! * flange.thickness);
  return {
    seed,
    budget,
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
      const inlet = nearest(inlets, polygon.points.at(-1)!);
      return {
        cylinder,
        start: port.origin,
        startAxis: port.z,
        end: inlet.origin,
        endAxis: inlet.z,
        minFirst: leastFirst(plan, cylinder),
        maxAngle: Math.min(2.9, largestAngle(plan)),
        clr: polygon.clr,
      };
    }),
  };
}

const largestAngle = (plan: Plan): number => Math.max(...plan.tube.bends.map((b) => b.maxAngle));

function nearest(inlets: readonly Frame[], end: Frame['origin']): Frame {
  const away = (f: Frame): number => Math.hypot(...minus(f.origin, end));
  return inlets.reduce((best, f) => (away(f) < away(best) ? f : best));
}
