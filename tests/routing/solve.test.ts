import { describe, expect, it } from 'vitest';
import { bendAngles, straightLengths } from '../../src/geometry/path/control-polygon.js';
import { endOf, startOf } from '../../src/geometry/path/path.js';
import { along, distance, dot, type Vec3 } from '../../src/geometry/vec3.js';
import type { GivenRoute, KeepOut, Plan } from '../../src/params/plan.js';
import { gapsOf } from '../../src/routing/clearance.js';
import { problemOf } from '../../src/routing/problem.js';
import { type RouteSet, solve } from '../../src/routing/solve.js';
import { randomLayout } from '../support/layouts.js';

const SEEDS = Array.from({ length: 24 }, (_, i) => 100 + i);

/** The best routes of a plan that has some. */
function solved(plan: Plan): RouteSet {
  const solution = solve(plan);
  if (!solution.ok) throw new Error(JSON.stringify(solution.miss));
  return solution.sets[0]!;
}

describe('routing random open bays', () => {
  it.each(SEEDS)('seed %i: ends, length, straights, angles and every gap hold', (seed) => {
    const plan = randomLayout(seed);
    const { problem, primaries } = solved(plan);
    for (const p of primaries) {
      const runner = problem.runners.find((r) => r.id === p.id)!;
      const inlet = problem.collectors[0]!.inlets[p.inlet - 1]!;
      expect(Math.abs(p.length - plan.runners.length)).toBeLessThan(1e-9);
      expect(distance(startOf(p.path).point, runner.start.origin)).toBeLessThan(1e-9);
      expect(dot(startOf(p.path).direction, runner.start.z)).toBeCloseTo(1, 12);
      expect(distance(endOf(p.path).point, inlet.origin)).toBeLessThan(1e-9);
      expect(dot(endOf(p.path).direction, inlet.z)).toBeCloseTo(1, 12);
      const straights = straightLengths(p.polygon);
      expect(straights[0]).toBeGreaterThan(runner.minFirst - 1e-9);
      expect(straights.at(-1)).toBeGreaterThan(problem.minStraightInlet - 1e-9);
      straights.slice(1, -1).forEach((s, i) => {
        // nothing lies between the halves of a U-bend
        if (!isUBend(p.polygon.points, i + 1, s)) expect(s).toBeGreaterThan(problem.minStraight - 1e-9);
      });
      for (const a of bendAngles(p.polygon.points)) expect(a).toBeLessThanOrEqual(Math.PI);
    }
    for (const g of gapsOf(problem, primaries)) expect(g.value).toBeGreaterThan(g.limit - 0.01);
    expect(new Set(primaries.map((p) => p.inlet)).size).toBe(primaries.length);
    expect(primaries).toHaveLength(plan.ports.length);
  });

  it('gives the same routes for the same plan, to the last bit', () => {
    expect(JSON.stringify(solve(randomLayout(7)))).toBe(JSON.stringify(solve(randomLayout(7))));
  });
});

/** True when the straight from inner point i on is none and the bends at its ends lie in one plane. */
function isUBend(points: readonly Vec3[], i: number, straight: number): boolean {
  if (Math.abs(straight) > 1e-6) return false;
  const [a, b, c, d] = [points[i - 1]!, points[i]!, points[i + 1]!, points[i + 2]!];
  const [u, v, w] = [minus(b, a), minus(c, b), minus(d, c)];
  const volume =
    u[0] * (v[1] * w[2] - v[2] * w[1]) + u[1] * (v[2] * w[0] - v[0] * w[2]) + u[2] * (v[0] * w[1] - v[1] * w[0]);
  return Math.abs(volume) < 1e-6 * distance(a, b) * distance(b, c) * distance(c, d);
}

const minus = (a: Vec3, b: Vec3): Vec3 => along(a, b, -1);

/** A layout with some of its runners section changed. */
function changed(runners: Partial<Plan['runners']>): Plan {
  const plan = randomLayout(103);
  return { ...plan, runners: { ...plan.runners, ...runners } };
}

describe('an honest no', () => {
  it('names the length when the target is shorter than the way', () => {
    const solution = solve(changed({ length: 150 }));
    expect(solution.ok).toBe(false);
    if (solution.ok) return;
    const worst = solution.miss.broken[0]!;
    expect(worst.kind).toBe('length');
    expect(worst.value).toBe(150);
    const { runners, collectors } = problemOf(changed({}));
    const crow = Math.min(
      ...runners.flatMap((r) => collectors[0]!.inlets.map((i) => distance(r.start.origin, i.origin))),
    );
    expect(worst.limit).toBeGreaterThan(crow);
  });

  it('names the gap when primaries cannot stand that far apart', () => {
    const solution = solve(changed({ clearance: 150 }));
    expect(solution.ok).toBe(false);
    if (!solution.ok) expect(solution.miss.broken.some((b) => b.kind === 'gap' && b.value < b.limit)).toBe(true);
  });

  it('names the kept-out space when a wall stands between head and collector', () => {
    const wall: KeepOut = {
      name: 'wall',
      kind: 'half-space',
      point: [0, -120, 0],
      normal: [0, 1, 0],
      clearance: 5,
      heat: false,
    };
    const solution = solve({ ...randomLayout(103), keepOuts: [wall] });
    expect(solution.ok).toBe(false);
    if (!solution.ok) expect(solution.miss.broken.some((b) => b.place.includes('keep-out wall'))).toBe(true);
  });

  it('says so when routes given by hand meet at one inlet', () => {
    const { primaries } = solved(randomLayout(103));
    const given = primaries.slice(0, 2).map((p): GivenRoute => ({ ...p.polygon, cylinder: p.cylinder, inlet: 1 }));
    const solution = solve(changed({ given }));
    expect(solution.ok).toBe(false);
    if (!solution.ok) expect(solution.miss.broken[0]!.kind).toBe('order');
  });
});
