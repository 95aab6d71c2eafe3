import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse, stringify } from 'yaml';
import { add, distance, scale, unit, type Vec3 } from '../../src/geometry/vec3.js';
import type { Plan } from '../../src/params/plan.js';
import { readPlan } from '../../src/params/read-plan.js';
import { type RouteSet, type SolveOptions, solve } from '../../src/routing/solve.js';
import { backwardLayout } from '../support/backward-layouts.js';
import {
  ASKEW,
  IN_TURN,
  inletAfter,
  MIRRORED_X,
  MIRRORED_Z,
  type Motion,
  movedPlan,
  numberAfter,
  placeAfter,
  QUARTER_Z,
} from '../support/moved-plan.js';

const FOLDER = new URL('../../templates/', import.meta.url);
const starter = (name: string): string => readFileSync(new URL(`${name}.yaml`, FOLDER), 'utf8');

function planOf(text: string): Plan {
  const read = readPlan(text, 'plan.yaml');
  if (!read.ok) throw new Error(read.text);
  return read.plan;
}

function routesOf(plan: Plan, options: SolveOptions = {}): RouteSet {
  const solution = solve(plan, options);
  if (!solution.ok) throw new Error(JSON.stringify(solution.miss));
  return solution.sets[0]!;
}

/** What of the routes of a moved plan is not the routes of the plan moved, in words. */
function differences(plan: Plan, before: RouteSet, after: RouteSet, motion: Motion): string[] {
  const mm = { ...motion, shift: scale(motion.shift, plan.units === 'in' ? 25.4 : 1) };
  const count = (collector: number): number => {
    const { cylinders, from } = plan.collectors[collector]!;
    return cylinders.length + from.length;
  };
  const tubes = [...after.primaries, ...after.secondaries];
  return [...before.primaries, ...before.secondaries].flatMap((tube) => {
    const id = 'cylinder' in tube ? String(numberAfter(motion, tube.cylinder)) : tube.id;
    const other = tubes.find((t) => t.id === id)!;
    const inlet = inletAfter(motion, tube.inlet, count(tube.collector));
    const off = tube.polygon.points.map((p, i) => distance(placeAfter(mm, p), other.polygon.points[i] ?? [0, 0, 0]));
    return [
      ...(other.inlet === inlet ? [] : [`${tube.name} is at inlet ${other.inlet}, not ${inlet}`]),
      ...(other.polygon.points.length === off.length ? [] : [`${tube.name} has another number of bends`]),
      ...(Math.max(...off) < 1e-6 ? [] : [`${tube.name} is off by ${Math.max(...off)} mm`]),
      ...(other.polygon.clr.join() === tube.polygon.clr.join() ? [] : [`${tube.name} has other radii`]),
      ...(Math.abs(other.length - other.target) < 1e-9 ? [] : [`${tube.name} has not its length`]),
    ];
  });
}

/** Routes of starters as they are, searched for once. */
const known = new Map<string, RouteSet>();

function routesOfStarter(name: string): RouteSet {
  const routes = known.get(name) ?? routesOf(planOf(starter(name)));
  known.set(name, routes);
  return routes;
}

function faultsOf(name: string, motion: Motion): string[] {
  const text = starter(name);
  return differences(planOf(text), routesOfStarter(name), routesOf(planOf(movedPlan(text, motion))), motion);
}

const AWAY: Vec3 = [312.7, -41.3, 1234.5];
const HERE: Vec3 = [0, 0, 0];
const AS_IT_IS: Motion['axes'] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];

/** Mirrored, turned by a third about the diagonal and shifted at once. */
const ALL_AT_ONCE: Motion = { axes: [scale(IN_TURN[0], -1), IN_TURN[1], IN_TURN[2]], shift: AWAY };

const backwards = (count: number): number[] => Array.from({ length: count }, (_, i) => count - i);

describe('the same header elsewhere has the same routes there', () => {
  it.each([
    { name: 'inline-four', what: 'mirrored along the crank', motion: { axes: MIRRORED_X, shift: AWAY } },
    { name: 'inline-four', what: 'turned by a quarter', motion: { axes: QUARTER_Z, shift: HERE } },
    {
      name: 'inline-four',
      what: 'numbered from the rear',
      motion: { axes: AS_IT_IS, shift: HERE, numbers: backwards(4) },
    },
    { name: 'inline-four-421', what: 'mirrored across', motion: { axes: MIRRORED_Z, shift: HERE } },
    { name: 'inline-four-421', what: 'numbered anew', motion: { axes: QUARTER_Z, shift: AWAY, numbers: [3, 1, 4, 2] } },
    { name: 'inline-four-stepped', what: 'all at once', motion: ALL_AT_ONCE },
    {
      name: 'inline-five, with a band of lengths',
      what: 'all at once',
      motion: { ...ALL_AT_ONCE, numbers: backwards(5) },
    },
    { name: 'inline-six-turbo', what: 'all at once', motion: { ...ALL_AT_ONCE, numbers: backwards(6) } },
    {
      name: 'v-twin',
      what: 'mirrored and numbered from the rear',
      motion: { axes: MIRRORED_X, shift: HERE, numbers: [2, 1] },
    },
    { name: 'v6-twin, with freedom', what: 'mirrored to the other side', motion: { axes: MIRRORED_Z, shift: HERE } },
    { name: 'v8-bank', what: 'mirrored to the other side', motion: { axes: MIRRORED_Z, shift: HERE } },
    { name: 'single', what: 'at any angle', motion: { axes: ASKEW, shift: AWAY } },
  ])('$name, $what', ({ name, motion }) => {
    expect(faultsOf(name.split(',')[0]!, motion)).toEqual([]);
  });
});
