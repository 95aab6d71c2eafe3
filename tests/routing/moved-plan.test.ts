import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse, stringify } from 'yaml';
import { distance, rotateAbout, scale, unit, type Vec3 } from '../../src/geometry/vec3.js';
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

/** Routes of a plan moved against the routes of the plan, both searched for. */
function faultsOfText(text: string, motion: Motion, options: SolveOptions = {}): string[] {
  const plan = planOf(text);
  return differences(plan, routesOf(plan, options), routesOf(planOf(movedPlan(text, motion)), options), motion);
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
    { name: 'inline-six-turbo', what: 'all at once', motion: { ...ALL_AT_ONCE, numbers: backwards(6) } },
    {
      name: 'v-twin',
      what: 'mirrored and numbered from the rear',
      motion: { axes: MIRRORED_X, shift: HERE, numbers: [2, 1] },
    },
    { name: 'v8-bank', what: 'mirrored to the other side', motion: { axes: MIRRORED_Z, shift: HERE } },
    { name: 'single', what: 'at any angle', motion: { axes: ASKEW, shift: AWAY } },
  ])('$name, $what', ({ name, motion }) => {
    expect(faultsOf(name, motion)).toEqual([]);
  });
});

interface Twin {
  readonly collector: object;
  readonly runners: object;
}

/** The two of a vee with some of its sections changed. */
function twinWith(change: (plan: Twin) => object): string {
  const plan = parse(starter('v-twin')) as Twin;
  return stringify({ ...plan, ...change(plan) });
}

describe('so has one', () => {
  it('whose collector and common length the routing may choose', () => {
    const freedom = { from: [-20, -10, -30], to: [15, 25, 5], tilt: 8, turns: true };
    const text = twinWith(({ collector, runners }) => ({
      collector: { ...collector, freedom },
      runners: { ...runners, length: { from: 760, to: 810 } },
    }));
    expect(faultsOfText(text, { ...ALL_AT_ONCE, numbers: [2, 1] })).toEqual([]);
  });

  it('with a route given by hand', () => {
    const { polygon, cylinder, inlet } = routesOfStarter('v-twin').primaries[0]!;
    const given = { by: 'xyz', cylinder, inlet, points: polygon.points, clr: polygon.clr };
    const text = twinWith(({ runners }) => ({ runners: { ...runners, routes: [given] } }));
    expect(faultsOfText(text, ALL_AT_ONCE)).toEqual([]);
  });

  it('when the first routes that hold will do', () => {
    expect(faultsOfText(starter('inline-four'), ALL_AT_ONCE, { quick: true })).toEqual([]);
  });

  it('with a scan in its bay, mirrored and turned by quarters with it', () => {
    const plan = planOf(starter('v-twin'));
    const moved = planOf(movedPlan(starter('v-twin'), ALL_AT_ONCE));
    const [before, after] = [withSheet(plan, (p) => p), withSheet(moved, (p) => placeAfter(ALL_AT_ONCE, p))];
    expect(differences(plan, routesOf(before), routesOf(after), ALL_AT_ONCE)).toEqual([]);
  });

  it('when there is none: for the same reasons', () => {
    const text = twinWith(({ runners }) => ({ runners: { ...runners, length: 250 } }));
    const [before, after] = [text, movedPlan(text, ALL_AT_ONCE)].map((t) => {
      const solution = solve(planOf(t));
      return solution.ok ? null : solution.miss;
    });
    expect(before!.conflict.length).toBeGreaterThan(0);
    expect([...after!.conflict].sort()).toEqual([...before!.conflict].sort());
    expect(after!.relaxations.length).toBe(before!.relaxations.length);
    for (const [i, b] of before!.broken.entries()) expect(after!.broken[i]!.value).toBeCloseTo(b.value, 6);
  });

  it('laid out at random, turned at random', () => {
    const angle = fc.double({ min: -Math.PI, max: Math.PI, noNaN: true });
    const property = fc.property(fc.constantFrom(1, 2, 5, 41), angle, angle, fc.boolean(), (seed, a, b, mirrored) => {
      const turn = (v: Vec3): Vec3 => rotateAbout(rotateAbout(v, [0, 0, 1], a), unit([1, 2, 3]), b);
      const axes = AS_IT_IS.map((v, i) => turn(i === 0 && mirrored ? scale(v, -1) : v)) as unknown as Motion['axes'];
      expect(faultsOfText(backwardLayout(seed).yaml, { axes, shift: AWAY })).toEqual([]);
    });
    fc.assert(property, { numRuns: 4 });
  });
});

/** The plan with a wavy sheet of triangles below its tubes, every point of it moved. */
function withSheet(plan: Plan, moved: (p: Vec3) => Vec3): Plan {
  const row = Array.from({ length: 13 }, (_, i) => i);
  const at = (i: number, j: number): Vec3 => [-300 + 80 * i, -330 + 20 * Math.sin(i) * Math.cos(2 * j), -500 + 90 * j];
  const positions = Float64Array.from(row.flatMap((j) => row.flatMap((i) => [...moved(at(i, j))])));
  const cells = row.slice(1).flatMap((j) => row.slice(1).map((i) => i + j * row.length));
  const across = row.length;
  const triangles = Uint32Array.from(cells.flatMap((k) => [k, k - 1, k - across - 1, k, k - across - 1, k - across]));
  const mesh = { positions, triangles };
  const sheet = { name: 'sheet', kind: 'mesh', file: 'sheet.stl', clearance: 5, heat: false, mesh } as const;
  return { ...plan, keepOuts: [...plan.keepOuts, sheet] };
}
