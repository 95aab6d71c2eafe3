import { describe, expect, it } from 'vitest';
import { bendAngles, endOf, startOf, straightLengths } from '../../src/geometry/path.js';
import { distance, dot } from '../../src/geometry/vec3.js';
import { gapsOf } from '../../src/routing/clearance.js';
import type { RouteProblem } from '../../src/routing/problem.js';
import { solve } from '../../src/routing/solve.js';
import { randomLayout } from '../support/layouts.js';

const SEEDS = Array.from({ length: 24 }, (_, i) => 100 + i);

describe('routing random open bays', () => {
  it.each(SEEDS)('seed %i: ends, length, straights, angles and every gap hold', (seed) => {
    const problem = randomLayout(seed);
    const solution = solve(problem);
    expect(solution.ok).toBe(true);
    if (!solution.ok) return;
    for (const p of solution.primaries) {
      const runner = problem.runners.find((r) => r.cylinder === p.cylinder)!;
      const inlet = problem.collectors[0]!.inlets[p.inlet - 1]!;
      expect(Math.abs(p.length - problem.target)).toBeLessThan(1e-9);
      expect(distance(startOf(p.path).point, runner.port.origin)).toBeLessThan(1e-9);
      expect(dot(startOf(p.path).direction, runner.port.z)).toBeCloseTo(1, 12);
      expect(distance(endOf(p.path).point, inlet.origin)).toBeLessThan(1e-9);
      expect(dot(endOf(p.path).direction, inlet.z)).toBeCloseTo(1, 12);
      const straights = straightLengths(p.polygon);
      expect(straights[0]).toBeGreaterThan(runner.minFirst - 1e-9);
      expect(straights.at(-1)).toBeGreaterThan(problem.minStraightInlet - 1e-9);
      for (const s of straights.slice(1, -1)) expect(s).toBeGreaterThan(problem.minStraight - 1e-9);
      for (const a of bendAngles(p.polygon.points)) expect(a).toBeLessThanOrEqual(Math.PI);
    }
    for (const g of gapsOf(problem, solution.primaries)) expect(g.value).toBeGreaterThan(g.limit - 0.01);
    expect(new Set(solution.primaries.map((p) => p.inlet)).size).toBe(solution.primaries.length);
  });

  it('gives the same routes for the same problem, to the last bit', () => {
    const first = solve(randomLayout(7));
    const second = solve(randomLayout(7));
    expect(JSON.stringify(second)).toBe(JSON.stringify(first));
  });
});

/** A layout with some of it changed. */
const changed = (change: Partial<RouteProblem>): RouteProblem => ({ ...randomLayout(103), ...change });

describe('an honest no', () => {
  it('names the length when the target is shorter than the way', () => {
    const solution = solve(changed({ target: 150 }));
    expect(solution.ok).toBe(false);
    if (solution.ok) return;
    const worst = solution.miss.broken[0]!;
    expect(worst.kind).toBe('length');
    expect(worst.value).toBe(150);
    const { runners, collectors } = changed({});
    const crow = Math.min(
      ...runners.flatMap((r) => collectors[0]!.inlets.map((i) => distance(r.port.origin, i.origin))),
    );
    expect(worst.limit).toBeGreaterThan(crow);
  });

  it('names the gap when primaries cannot stand that far apart', () => {
    const solution = solve(changed({ clearance: 150 }));
    expect(solution.ok).toBe(false);
    if (!solution.ok) expect(solution.miss.broken.some((b) => b.kind === 'gap' && b.value < b.limit)).toBe(true);
  });

  it('names the kept-out space when a wall stands between head and collector', () => {
    const layout = randomLayout(103);
    const wall = {
      name: 'keep-out wall',
      obstacle: { kind: 'half-space', point: [0, -120, 0], normal: [0, 1, 0] },
      limit: 5,
      startsOn: [],
      endsOn: [],
    } as const;
    const solution = solve({ ...layout, keptOut: [...layout.keptOut, wall] });
    expect(solution.ok).toBe(false);
    if (!solution.ok) expect(solution.miss.broken.some((b) => b.place.includes('keep-out wall'))).toBe(true);
  });

  it('says so when routes given by hand meet at one inlet', () => {
    const layout = randomLayout(103);
    const collectors = layout.collectors.map((c) => ({ ...c, orders: [], orderKept: false }));
    const solution = solve({ ...layout, collectors });
    expect(solution.ok).toBe(false);
    if (!solution.ok) expect(solution.miss.broken[0]!.kind).toBe('order');
  });
});
