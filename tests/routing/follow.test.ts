import { describe, expect, it } from 'vitest';
import type { Plan } from '../../src/params/plan.js';
import { followHeader, type RoutedHeader } from '../../src/pipeline.js';
import { trialOf } from '../../src/routing/follow.js';
import { plannedPlacement, problemOf } from '../../src/routing/problem.js';
import { polygonOf } from '../../src/routing/trial.js';
import { routedStarter } from '../support/starter.js';

const four = routedStarter('inline-four');
const pairs = routedStarter('inline-four-421');
const tubesOf = (h: RoutedHeader) => [...h.primaries, ...h.secondaries];

/** The plan with its first collector moved along x. */
const moved = (plan: Plan, by: number): Plan => ({
  ...plan,
  collectors: plan.collectors.map((c, i) => {
    const [x, y, z] = c.frame.origin;
    return i === 0 ? { ...c, frame: { ...c.frame, origin: [x + by, y, z] } } : c;
  }),
});

describe('routes that follow', () => {
  it.each([
    ['4-1', four],
    ['4-2-1', pairs],
  ] as const)('a moved collector of a %s keep their form and have the length', (_, header) => {
    const followed = followHeader(moved(header.plan, 4), tubesOf(header))!;
    expect(followed.holds).toBe(true);
    for (const [i, tube] of tubesOf(followed).entries()) {
      const was = tubesOf(header)[i]!;
      expect(Math.abs(tube.length - tube.target)).toBeLessThan(1e-9);
      expect(tube.inlet).toBe(was.inlet);
      expect(tube.polygon.points.length).toBe(was.polygon.points.length);
    }
    expect(followed.findings.filter((f) => f.id.startsWith('route.end') && f.level === 'fail')).toEqual([]);
  });

  it.each([740, 780, 790, 820])('a new target length of %d mm', (length) => {
    const plan = { ...four.plan, runners: { ...four.plan.runners, length } };
    const followed = followHeader(plan, four.primaries)!;
    for (const tube of followed.primaries) expect(tube.length).toBeCloseTo(length, 9);
  });

  it('say so when they break a limit', () => {
    const plan = { ...four.plan, runners: { ...four.plan.runners, clearance: 120 } };
    const followed = followHeader(plan, four.primaries);
    expect(followed === null || (!followed.holds && !followed.passed)).toBe(true);
  });

  it('are the same for the same plan and the same earlier routes', () => {
    const once = followHeader(moved(four.plan, 9), four.primaries)!;
    const twice = followHeader(moved(four.plan, 9), four.primaries)!;
    expect(twice.primaries.map((p) => p.polygon)).toEqual(once.primaries.map((p) => p.polygon));
  });

  it('cannot when a tube has no earlier route', () => {
    expect(followHeader(four.plan, four.primaries.slice(1))).toBeNull();
  });

  it('cannot when an order gives their inlets to others', () => {
    const cylinders = [...four.primaries].sort((a, b) => a.inlet - b.inlet).map((p) => p.cylinder);
    const collectors = four.plan.collectors.map((c) => ({
      ...c,
      order: { kind: 'given' as const, cylinders: [...cylinders.slice(1), cylinders[0]!] },
    }));
    expect(followHeader({ ...four.plan, collectors }, four.primaries)).toBeNull();
  });
});

describe('a route as the search handles it', () => {
  it('gives back its polygon', () => {
    for (const header of [four, pairs, routedStarter('v-twin')]) {
      const problem = problemOf(header.plan, plannedPlacement(header.plan));
      for (const tube of tubesOf(header)) {
        const runner = problem.runners.find((r) => r.id === tube.id)!;
        const inlet = problem.collectors[tube.collector]!.inlets[tube.inlet - 1]!;
        const again = polygonOf(trialOf(tube.polygon)!, runner.start, inlet);
        expect(again.clr).toEqual(tube.polygon.clr);
        again.points.forEach((p, i) => {
          p.forEach((v, k) => {
            expect(v).toBeCloseTo(tube.polygon.points[i]![k]!, 6);
          });
        });
      }
    }
  });

  it('is none for a route of one bend', () => {
    expect(
      trialOf({
        points: [
          [0, 0, 0],
          [0, 0, 90],
          [90, 0, 90],
        ],
        clr: [30],
      }),
    ).toBeNull();
  });
});
