import { describe, expect, it } from 'vitest';
import type { CheckContext } from '../../src/checks/context.js';
import { check, passes } from '../../src/checks/rules.js';
import { pathFromPolygon } from '../../src/geometry/path/control-polygon.js';
import { pathLength } from '../../src/geometry/path/path.js';
import type { Vec3 } from '../../src/geometry/vec3.js';
import type { StockBend } from '../../src/params/plan.js';
import { flangesOf } from '../../src/parts/flange/flange.js';
import { gapsOf } from '../../src/routing/clearance.js';
import type { RoutedPrimary } from '../../src/routing/routed.js';
import { routedStarter } from '../support/starter.js';

const header = routedStarter('inline-four');
const sound: CheckContext = { ...header, jigs: [], jigNotes: [], bill: null };

/** The problem with other bent stock for every size of every tube. */
const withStock = (stock: readonly StockBend[]): CheckContext['problem'] => ({
  ...header.problem,
  runners: header.problem.runners.map((r) => ({ ...r, sections: r.sections.map((s) => ({ ...s, stock })) })),
});

const failing = (context: CheckContext): string[] => [
  ...new Set(
    check(context)
      .filter((f) => f.level === 'fail')
      .map((f) => f.id),
  ),
];

/** The context with one primary's points moved, everything measured afresh. */
function moved(cylinder: number, move: (points: readonly Vec3[]) => readonly Vec3[]): CheckContext {
  const primaries = header.primaries.map((p): RoutedPrimary => {
    if (p.cylinder !== cylinder) return p;
    const polygon = { ...p.polygon, points: move(p.polygon.points) };
    const path = pathFromPolygon(polygon);
    return { ...p, polygon, path, length: pathLength(path) };
  });
  return { ...sound, primaries, gaps: gapsOf(header.problem, primaries) };
}

describe('checks of a sound header', () => {
  it('all hold', () => {
    expect(failing(sound)).toEqual([]);
    expect(passes(check(sound))).toBe(true);
  });

  it('each finding is finite, has a place, a sentence and the value it speaks of', () => {
    for (const f of check(sound)) {
      expect(Number.isFinite(f.value) && Number.isFinite(f.limit), f.id).toBe(true);
      expect(f.place.length).toBeGreaterThan(2);
      expect(f.message).toMatch(/\.$/);
    }
  });

  it('every kind of limit is looked at', () => {
    const ids = new Set(check(sound).map((f) => f.id));
    for (const id of [
      'equal-length.spread',
      'equal-length.target',
      'route.end-place',
      'route.end-direction',
      'collector.order',
      'clearance.tubes',
      'clearance.run-in',
      'clearance.kept-out',
      'bend.straight',
      'bend.angle',
      'flange.port-edge',
      'flange.bolt-edge',
      'flange.web',
      'flange.bolt-seat',
      'flange.bolt-socket',
      'flange.weld-edge',
      'flange.torch-reach',
      'flange.cut-tolerance',
      'flange.note',
      'opening.port-ledge',
      'opening.ledge',
      'opening.area',
    ]) {
      expect(ids, id).toContain(id);
    }
  });
});

describe('checks of a broken header', () => {
  it('a primary that is longer fails its length and the spread', () => {
    const context = moved(2, (points) => points.map((p, i) => (i === 2 ? [p[0], p[1] + 9, p[2] + 9] : p)));
    const broken = failing(context);
    expect(broken).toContain('equal-length.target');
    expect(broken).toContain('equal-length.spread');
    const spread = check(context).find((f) => f.id === 'equal-length.spread')!;
    const off = context.primaries.find((p) => p.cylinder === 2)!.length - header.plan.runners.length;
    expect(spread.value).toBeCloseTo(Math.abs(off), 9);
  });

  it('a tube that ends beside its inlet fails its end', () => {
    const context = moved(1, (points) => points.map((p, i) => (i >= points.length - 2 ? [p[0] + 2, p[1], p[2]] : p)));
    expect(failing(context)).toContain('route.end-place');
  });

  it('a tube laid onto its neighbour fails the clearance, with the overlap in words', () => {
    const other = header.primaries.find((p) => p.cylinder === 2)!;
    const primaries = header.primaries.map((p) =>
      p.cylinder === 1 ? { ...other, id: p.id, name: p.name, cylinder: 1, inlet: p.inlet } : p,
    );
    const context = { ...sound, primaries, gaps: gapsOf(header.problem, primaries) };
    const worst = check(context).find((f) => f.id === 'clearance.tubes' && f.place === 'cylinders 1 and 2')!;
    expect(worst.level).toBe('fail');
    expect(worst.value).toBeCloseTo(-header.plan.tube.od, 1);
    expect(worst.message).toMatch(/overlap by 4\d\.\d\d mm/);
  });

  it('wider wishes than the flange has fail its edges and webs', () => {
    const plan = { ...header.plan, flange: { ...header.plan.flange, portEdge: 40, boltEdge: 30, web: 40 } };
    const broken = failing({ ...sound, plan });
    for (const id of ['flange.port-edge', 'flange.bolt-edge', 'flange.web']) expect(broken).toContain(id);
  });

  it('a bend beyond the stock and a radius that is not stocked fail', () => {
    const tight = withStock([{ clr: 63.5, maxAngle: 0.1, leg: 0, shortLeg: 0 }]);
    expect(failing({ ...sound, problem: tight })).toContain('bend.angle');
    const none = withStock([{ clr: 50, maxAngle: 3, leg: 0, shortLeg: 0 }]);
    const finding = check({ ...sound, problem: none }).find((f) => f.id === 'bend.angle' && f.level === 'fail')!;
    expect(finding.message).toMatch(/No stock bend of this size has a CLR/);
  });

  it('a smaller tube than the port warns of a contraction and a ledge, and does not fail', () => {
    const plan = { ...header.plan, tube: { ...header.plan.tube, od: 35 } };
    const warned = check({ ...sound, plan, flanges: flangesOf(plan) }).filter((f) => f.level === 'warn');
    const ledge = warned.find((f) => f.id === 'opening.ledge')!;
    // the widest half of a 42 mm oval less half the bore of a 35 x 1.6 mm tube
    expect(ledge.value).toBeCloseTo(21 - (35 / 2 - 1.6), 2);
    expect(warned.some((f) => f.id === 'opening.area' && f.value < 0.98)).toBe(true);
  });
});
