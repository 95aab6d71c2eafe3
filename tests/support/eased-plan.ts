import { radians } from '../../src/geometry/angle.js';
import type { KeepOut, Plan } from '../../src/params/plan.js';
import type { Relaxation } from '../../src/routing/miss.js';

/** A plan changed as a relaxation says, read from its words as a person would. */
export function easedPlan(plan: Plan, { words, to }: Relaxation): Plan {
  const { tube, runners } = plan;
  const space = /keep_out "(.*)"$/.exec(words)?.[1];
  if (space && to === null) return { ...plan, keepOuts: plan.keepOuts.filter((k) => k.name !== space) };
  if (space) {
    const lower = (k: KeepOut): KeepOut => (k.name === space ? { ...k, clearance: to! } : k);
    return { ...plan, keepOuts: plan.keepOuts.map(lower) };
  }
  if (words === 'collector.order: free') {
    return { ...plan, collectors: plan.collectors.map((c) => ({ ...c, order: { kind: 'free' } })) };
  }
  if (/^max_angle of tube\.bends clr 60 mm$/.test(words)) {
    return { ...plan, tube: { ...tube, bends: tube.bends.map((b) => ({ ...b, maxAngle: radians(to!) })) } };
  }
  const step = /^within of tube\.steps (\d+)$/.exec(words)?.[1];
  if (step) {
    const steps = tube.steps.map((s, i) => (i === Number(step) - 1 ? { ...s, within: to! } : s));
    return { ...plan, tube: { ...tube, steps } };
  }
  switch (words) {
    case 'runners.length':
      return { ...plan, runners: { ...runners, length: to! } };
    case 'runners.clearance':
      return { ...plan, runners: { ...runners, clearance: to! } };
    case 'tube.min_straight':
      return { ...plan, tube: { ...tube, minStraight: to! } };
    case 'tube.min_straight_port':
      return { ...plan, tube: { ...tube, minStraightPort: to! } };
    case 'tube.min_straight_inlet':
      return { ...plan, tube: { ...tube, minStraightInlet: to! } };
    default:
      throw new Error(`no such field in a plan: ${words}`);
  }
}
