import { degrees } from '../geometry/angle.js';
import { bendAngles, straightLengths } from '../geometry/path/control-polygon.js';
import { LENGTH_TOLERANCE } from '../geometry/tolerance.js';
import { lengthsIn, lengthWords } from '../params/faults/wording.js';
import { LEAST_BEND } from '../routing/cost.js';
import { maxAngle } from '../routing/limits.js';
import type { RouteProblem, Runner } from '../routing/problem.js';
import type { RoutedTube } from '../routing/routed.js';
import { isOneBend } from '../routing/trial.js';
import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';

/** What an angle may exceed the stock's by and still hold, deg: far below a saw. */
const ANGLE_SLACK = 1e-6;

const tubesOf = ({ primaries, secondaries }: CheckContext): readonly RoutedTube[] => [...primaries, ...secondaries];

const runnerOf = (problem: RouteProblem, tube: RoutedTube): Runner => problem.runners.find((r) => r.id === tube.id)!;

/** Which straights of a tube are none, because the bends beside them are halves of one. */
function joinedStraights({ polygon: { points, clr } }: RoutedTube, lengths: readonly number[]): boolean[] {
  return lengths.map((l, i) => i > 0 && i < lengths.length - 1 && isOneBend(points, clr, i, l));
}

/** Every straight of every tube against its least length. */
export function straights(context: CheckContext): Finding[] {
  const { problem, plan } = context;
  const words = lengthsIn(plan.units);
  return tubesOf(context).flatMap((tube) => {
    const lengths = straightLengths(tube.polygon);
    const joined = joinedStraights(tube, lengths);
    return lengths.flatMap((value, i): Finding[] => {
      if (joined[i]) return [];
      const last = i === lengths.length - 1;
      const limit = i === 0 ? runnerOf(problem, tube).minFirst : last ? problem.minStraightInlet : problem.minStraight;
      const where = i === 0 ? 'at the start' : last ? 'before the collector' : `between bends ${i} and ${i + 1}`;
      return [
        {
          id: 'bend.straight',
          level: value >= limit - LENGTH_TOLERANCE ? 'ok' : 'fail',
          place: `${tube.name}, straight ${i + 1}`,
          value,
          limit,
          unit: 'mm',
          message: `The straight ${where} is ${words(value, 2)}; at least ${words(limit, 2)} are wanted.`,
        },
      ];
    });
  });
}

/** Every bend's angle and radius against the stock of the tube size it lies in; halves of a U-bend count as one. */
export function bendStock(context: CheckContext): Finding[] {
  const { units } = context.plan;
  return tubesOf(context).flatMap((tube) => {
    const angles = bendAngles(tube.polygon.points);
    const lengths = straightLengths(tube.polygon);
    const joined = joinedStraights(tube, lengths);
    const { sections } = runnerOf(context.problem, tube);
    const findings: Finding[] = [];
    let run = 0;
    for (let i = 0; i < angles.length; i++) {
      run += lengths[i]!;
      const from = i;
      let angle = angles[i]!;
      while (joined[i + 1]) angle += angles[++i]!;
      const size = tube.sections.filter((s) => s.from <= run + 1e-6).length - 1;
      const clr = tube.polygon.clr[from]!;
      const stocked = sections[size]!.stock.map((b) => lengthWords(b.clr, units, 2)).join(', ');
      if (angle < LEAST_BEND) findings.push(sliver(tube, from + 1, angle));
      findings.push(
        bendFinding(tube, from + 1, angle, maxAngle(sections[size]!, clr), lengthWords(clr, units, 2), stocked),
      );
      for (let k = from; k <= i; k++) run += tube.polygon.clr[k]! * angles[k]!;
    }
    return findings;
  });
}

function sliver(tube: RoutedTube, bend: number, angle: number): Finding {
  return {
    id: 'bend.small',
    level: 'warn',
    place: `${tube.name}, bend ${bend}`,
    value: degrees(angle),
    limit: degrees(LEAST_BEND),
    unit: 'deg',
    message: `${degrees(angle).toFixed(2)} deg is too little to cut and weld with sense: pull the tube, or move an end a little.`,
  };
}

function bendFinding(
  tube: RoutedTube,
  bend: number,
  angle: number,
  most: number,
  clr: string,
  stocked: string,
): Finding {
  const value = degrees(angle);
  const limit = degrees(most);
  return {
    id: 'bend.angle',
    level: value <= limit + ANGLE_SLACK ? 'ok' : 'fail',
    place: `${tube.name}, bend ${bend}`,
    value,
    limit,
    unit: 'deg',
    message:
      limit === 0
        ? `No stock bend of this size has a CLR of ${clr}; the plan lists ${stocked}.`
        : `${value.toFixed(2)} deg at CLR ${clr}; the stock bend has ${limit.toFixed(2)} deg.`,
  };
}

/** Every step of a tube against the place the plan gives it. */
export function steps(context: CheckContext): Finding[] {
  const words = lengthsIn(context.plan.units);
  return context.primaries.flatMap((tube) =>
    tube.sections.slice(1).map((s, k): Finding => {
      const wish = runnerOf(context.problem, tube).sections[k + 1]!;
      const value = Math.abs(s.from - wish.at);
      return {
        id: 'tube.step',
        level: value <= wish.within + LENGTH_TOLERANCE ? 'ok' : 'fail',
        place: `${tube.name}, step ${k + 1}`,
        value,
        limit: wish.within,
        unit: 'mm',
        message: `The tube grows to ${words(s.od, 2)} at ${words(s.from, 2)}; ${words(wish.at, 2)} is wanted.`,
      };
    }),
  );
}
