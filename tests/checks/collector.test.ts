import { describe, expect, it } from 'vitest';
import { branches, diffusers, throats } from '../../src/checks/collector.js';
import type { CheckContext } from '../../src/checks/context.js';
import { radians } from '../../src/geometry/angle.js';
import { inletTube } from '../../src/params/collector/inlet-tube.js';
import type { CollectorPlan } from '../../src/params/plan.js';
import { collectorGeometry } from '../../src/parts/collector/merge-geometry.js';
import { problemOf } from '../../src/routing/problem.js';
import { routedStarter } from '../support/starter.js';

const header = routedStarter('inline-four');

/** The starter's header with its collector changed; routes stay. */
function withCollector(change: Partial<CollectorPlan>): CheckContext {
  const plan = { ...header.plan, collectors: header.plan.collectors.map((c) => ({ ...c, ...change })) };
  return { ...header, plan, problem: problemOf(plan), jigs: [], jigNotes: [], bill: null };
}
const outlet = (change: Partial<CollectorPlan['outlet']>): CheckContext =>
  withCollector({ outlet: { ...header.plan.collectors[0]!.outlet, ...change } });
const [first] = header.plan.collectors;
const bore = first!.outlet.od - 2 * first!.outlet.wall;
const venturi = (diffuserLength: number, by = 10): CheckContext =>
  outlet({ throat: { bore: bore - 2 * by, length: 5, diffuserLength } });

describe('growth of the section', () => {
  it('warns above 7 deg half-angle, with its source and the length that would do, and not at it', () => {
    const at = (deg: number) => diffusers(venturi(10 / Math.tan(radians(deg))))[1]!;
    expect(at(7).level).toBe('ok');
    expect(at(7).value).toBeCloseTo(7, 9);
    expect(at(6.9).level).toBe('ok');
    const steep = at(7.1);
    expect(steep).toMatchObject({ id: 'collector.diffuser', level: 'warn', limit: 7, unit: 'deg' });
    expect(steep.message).toMatch(/Azad 1996/);
    expect(steep.message).toMatch(/make it 81 mm long/); // 10 mm / tan 7 deg = 81.4 mm
  });

  it('judges a cone that grows as a diffuser and one that draws in not at all', () => {
    const plain = diffusers(outlet({}))[0]!;
    expect(plain).toMatchObject({ level: 'ok', value: 0 });
    expect(plain.message).toMatch(/^Draws in at /);
    const wide = diffusers(outlet({ od: 130, coneLength: 60 }))[0]!;
    expect(wide.level).toBe('warn');
    const long = diffusers(outlet({ od: 130, coneLength: 600 }))[0]!;
    expect(long.level).toBe('ok');
    expect(long.value).toBeGreaterThan(0);
  });

  it('has one row for a cone, two for a venturi, one for a straight-through one', () => {
    expect(diffusers(outlet({}))).toHaveLength(1);
    expect(diffusers(venturi(120))).toHaveLength(2);
    expect(diffusers(outlet({ throat: { bore, length: 20, diffuserLength: 0 } }))).toHaveLength(1);
  });

  it('warns of a throat smaller than one tube', () => {
    expect(throats(outlet({}))).toEqual([]);
    const tube = inletTube(header.plan, first!);
    const one = tube.od - 2 * tube.wall;
    const at = (b: number) => throats(outlet({ throat: { bore: b, length: 5, diffuserLength: 100 } }))[0]!;
    expect(at(one)).toMatchObject({ id: 'collector.throat', level: 'ok' });
    expect(at(one).value).toBeCloseTo(1, 12);
    expect(at(one - 0.5).level).toBe('warn');
  });
});

describe('branch of a collector', () => {
  const { totalLength } = collectorGeometry(first!, inletTube(header.plan, first!));
  const branch = {
    od: 38,
    wall: 1.6,
    angle: radians(60),
    at: totalLength - 45,
    clocking: 0,
    length: 90,
    on: 'tail',
  } as const;

  it('has no rows without one and a row for every tube and all kept-out space with one', () => {
    expect(branches(withCollector({}))).toEqual([]);
    const context = withCollector({ branch });
    const rows = branches(context);
    for (const t of header.primaries) expect(rows.some((r) => r.place.includes(t.name))).toBe(true);
    expect(rows.some((r) => r.place.endsWith('head'))).toBe(true);
    for (const r of rows) expect(Number.isFinite(r.value), r.place).toBe(true);
  });

  it('fails where it runs into something, and the routing keeps off it too', () => {
    const along = header.plan.collectors[0]!.frame;
    const wall = {
      name: 'keep-out wall',
      limit: 10,
      startsOn: [],
      endsOn: [],
      // a plane through the branch's open end, square to inlet 1's direction
      obstacle: {
        kind: 'half-space',
        point: [0, 1, 2].map((i) => along.origin[i]! + along.x[i]! * 70) as [number, number, number],
        normal: along.x.map((v) => -v) as [number, number, number],
      } as const,
    };
    const context = withCollector({ branch });
    const near = branches({ ...context, problem: { ...context.problem, keptOut: [...context.problem.keptOut, wall] } });
    const row = near.find((r) => r.place.endsWith('keep-out wall'))!;
    expect(row).toMatchObject({ id: 'collector.branch', level: 'fail', limit: 10 });
    // the far end lies at 90 sin 60 from the axis, its ball of 19 mm beyond
    expect(row.value).toBeCloseTo(70 - 90 * Math.sin(radians(60)) - 19, 2);
    expect(context.problem.keptOut.map((k) => k.name)).toContain('branch of the collector');
    expect(problemOf(header.plan).keptOut.map((k) => k.name)).not.toContain('branch of the collector');
  });
});
