import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { minGap, solidOf } from '../../src/geometry/solid/solid.js';
import { sweepRound } from '../../src/geometry/sweep/sweep.js';
import { CHORD_ERROR, DISTANCE_ERROR } from '../../src/geometry/tolerance.js';
import type { Plan } from '../../src/params/plan.js';
import { type RouteSet, solve } from '../../src/routing/solve.js';
import { keepOutDistance } from '../support/dense-space.js';
import { denseGap, denseTube, pointAt } from '../support/dense-tube.js';
import { growingHeader } from '../support/growing-header.js';
import { planOfFile, randomLayout } from '../support/layouts.js';
import { DENSE_ERROR, DENSE_STEP, routeFaults } from '../support/route-faults.js';

/** Random bays: the open ones of other tests, now and then with a bar through them; seeds shrink towards 0. */
const arbitraryPlan: fc.Arbitrary<Plan> = fc
  .record({ seed: fc.nat(9999), bar: fc.option(fc.record({ x: fc.nat(300), z: fc.nat(200) })) })
  .map(({ seed, bar }) => {
    const plan = randomLayout(seed);
    if (!bar) return plan;
    const at = (y: number) => [bar.x, y, 250 + bar.z] as const;
    const common = { name: 'bar', heat: false, clearance: 8, diameter: 20 };
    return { ...plan, keepOuts: [{ ...common, kind: 'capsule', from: at(-500), to: at(100) }] };
  });

function best(plan: Plan): RouteSet {
  const solution = solve(plan);
  if (!solution.ok) throw new Error(`${plan.name}: ${JSON.stringify(solution.miss)}`);
  return solution.sets[0]!;
}

/** Least reported gap of the two tubes, whatever part of them it was measured on. */
const reported = ({ gaps }: RouteSet, tubes: readonly string[]): number =>
  Math.min(...gaps.filter((g) => g.tubes.join() === tubes.join()).map((g) => g.value));

describe('what is reported of routes is true', () => {
  it('ends, lengths, straights, angles and every gap hold by plain arithmetic', () => {
    fc.assert(
      fc.property(arbitraryPlan, (plan) => {
        const { primaries } = best(plan);
        expect(routeFaults(plan, new Map(primaries.map((p) => [p.cylinder, p.polygon])))).toEqual([]);
        for (const p of primaries) expect(Math.abs(p.length - plan.runners.length)).toBeLessThan(1e-9);
      }),
      { numRuns: 12, seed: 41 },
    );
  });

  it('the same plan gives the same routes, to the last bit', () => {
    fc.assert(
      fc.property(arbitraryPlan, (plan) => {
        expect(JSON.stringify(best(plan).primaries)).toBe(JSON.stringify(best(structuredClone(plan)).primaries));
      }),
      { numRuns: 2, seed: 42 },
    );
  });

  it('gaps between tubes are those of their swept solids and of dense points', () => {
    fc.assert(
      fc.property(arbitraryPlan, (plan) => {
        const set = best(plan);
        const r = plan.tube.od / 2;
        const made = set.primaries.map((p) => ({
          id: p.id,
          solid: solidOf(sweepRound(p.path, r)),
          dense: denseTube(p.polygon, DENSE_STEP),
        }));
        made.forEach((a, i) => {
          for (const b of made.slice(i + 1)) {
            const gap = reported(set, [a.id, b.id]);
            const points = denseGap(a.dense, b.dense, () => r);
            expect(points).toBeGreaterThan(gap - DISTANCE_ERROR);
            expect(points).toBeLessThan(gap + DENSE_ERROR);
            // flat ends may stand a little further apart than the points in their middle less the radii
            expect(minGap(a.solid, b.solid, gap + 1)).toBeGreaterThan(gap - 2 * CHORD_ERROR - DISTANCE_ERROR);
          }
        });
      }),
      { numRuns: 3, seed: 43 },
    );
  });

  it('a gap in the open is that of the solids both ways', () => {
    let compared = 0;
    for (const seed of [100, 102]) {
      const plan = randomLayout(seed);
      const set = best(plan);
      const solids = new Map(set.primaries.map((p) => [p.id, solidOf(sweepRound(p.path, plan.tube.od / 2))]));
      for (const g of set.gaps) {
        if (g.kind !== 'tubes' || g.value > reported(set, g.tubes) || g.value > 60) continue;
        const [a, b] = g.tubes.map((id) => solids.get(id)!);
        expect(Math.abs(minGap(a!, b!, g.value + 1) - g.value)).toBeLessThan(2 * CHORD_ERROR + DISTANCE_ERROR);
        compared++;
      }
    }
    expect(compared).toBeGreaterThan(0);
  });

  it('gaps to keep-outs are those of dense points', () => {
    const bars = [0, 1, 2].map((i) => ({
      name: `bar ${i}`,
      kind: i === 0 ? 'cylinder' : 'capsule',
      from: [60 + 110 * i, -480, 240],
      to: [20 + 120 * i, -120, 330],
      diameter: 18,
    }));
    const box = { name: 'mount', kind: 'box', from: [-90, -330, -60], to: [-20, -230, 40] };
    const plan = planOfFile(growingHeader(4, 1, { keep_out: [...bars, box] }));
    const set = best(plan);
    for (const k of plan.keepOuts) {
      const distance = keepOutDistance(k);
      for (const p of set.primaries) {
        const tube = denseTube(p.polygon, DENSE_STEP);
        const points = Array.from(tube.run, (_, i) => distance(pointAt(tube, i)) - plan.tube.od / 2);
        const gap = set.gaps.find((g) => g.place.endsWith(`keep-out ${k.name}`) && g.tubes[0] === p.id)!;
        expect(Math.min(...points)).toBeGreaterThan(gap.value - DISTANCE_ERROR);
        expect(Math.min(...points)).toBeLessThan(gap.value + DENSE_ERROR);
      }
    }
  });
});

describe('what makes routes good', () => {
  it('more primaries than one collector takes are routed to several, each equal', () => {
    const plan = planOfFile(growingHeader(6, 3));
    const set = best(plan);
    expect(set.primaries).toHaveLength(6);
    expect(routeFaults(plan, new Map(set.primaries.map((p) => [p.cylinder, p.polygon])))).toEqual([]);
  });

  it('alternatives differ in inlets or bends and come best first', () => {
    const solution = solve(randomLayout(103), { alternatives: 3 });
    if (!solution.ok) throw new Error(JSON.stringify(solution.miss));
    const kinds = solution.sets.map((s) => s.primaries.map((p) => `${p.inlet}/${p.polygon.clr.length}`).join());
    expect(new Set(kinds).size).toBe(kinds.length);
    expect(kinds.length).toBeGreaterThan(1);
    const costs = solution.sets.map((s) => s.cost);
    expect([...costs].sort((a, b) => a - b)).toEqual(costs);
  });
});
