import { degrees } from '../geometry/angle.js';
import { bendAngles, straightLengths } from '../geometry/path.js';
import { LENGTH_TOLERANCE } from '../geometry/tolerance.js';
import { maxAngle } from '../routing/limits.js';
import type { RoutedPrimary } from '../routing/routed.js';
import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';

/** What an angle may exceed the stock's by and still hold, deg: far below a saw. */
const ANGLE_SLACK = 1e-6;

/** Every straight of every primary against its least length. */
export function straights({ problem, primaries }: CheckContext): Finding[] {
  return primaries.flatMap((p) => {
    const runner = problem.runners.find((r) => r.cylinder === p.cylinder)!;
    const lengths = straightLengths(p.polygon);
    return lengths.map((value, i): Finding => {
      const last = i === lengths.length - 1;
      const limit = i === 0 ? runner.minFirst : last ? problem.minStraightInlet : problem.minStraight;
      const where = i === 0 ? 'from the head face' : last ? 'before the collector' : `between bends ${i} and ${i + 1}`;
      return {
        id: 'bend.straight',
        level: value >= limit - LENGTH_TOLERANCE ? 'ok' : 'fail',
        place: `cylinder ${p.cylinder}, straight ${i + 1}`,
        value,
        limit,
        unit: 'mm',
        message: `The straight ${where} is ${value.toFixed(2)} mm; at least ${limit.toFixed(2)} mm are wanted.`,
      };
    });
  });
}

/** Every bend's angle and radius against the stock. */
export function bendStock({ plan, problem, primaries }: CheckContext): Finding[] {
  return primaries.flatMap((p) => bendAngles(p.polygon.points).map((a, i) => bendFinding(p, i, a)));

  function bendFinding(p: RoutedPrimary, i: number, angle: number): Finding {
    const clr = p.polygon.clr[i]!;
    const limit = degrees(maxAngle(problem, clr));
    const value = degrees(angle);
    const stocked = plan.tube.bends.map((b) => b.clr.toFixed(2)).join(', ');
    return {
      id: 'bend.angle',
      level: value <= limit + ANGLE_SLACK ? 'ok' : 'fail',
      place: `cylinder ${p.cylinder}, bend ${i + 1}`,
      value,
      limit,
      unit: 'deg',
      message:
        limit === 0
          ? `No stock bend has a CLR of ${clr.toFixed(2)} mm; the plan lists ${stocked} mm.`
          : `${value.toFixed(2)} deg at CLR ${clr.toFixed(2)} mm; the stock bend has ${limit.toFixed(2)} deg.`,
    };
  }
}
