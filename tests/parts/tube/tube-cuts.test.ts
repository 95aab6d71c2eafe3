import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { radians } from '../../../src/geometry/angle.js';
import { type ControlPolygon, pathFromPolygon } from '../../../src/geometry/path/control-polygon.js';
import { endOf, pathLength } from '../../../src/geometry/path/path.js';
import { cross, distance, dot, length, type Vec3 } from '../../../src/geometry/vec3.js';
import type { Plan, StockBend, WeldPlan } from '../../../src/params/plan.js';
import { cutFrom } from '../../../src/parts/tube/bent-stock.js';
import { cutsOf } from '../../../src/parts/tube/tube-cuts.js';
import type { RoutedSecondary } from '../../../src/routing/routed.js';
import { arbitraryTube } from '../../support/random-path.js';
import { steppedPair } from '../../support/stepped-pair.js';
import { walked } from '../../support/walk-pieces.js';

const base = steppedPair();

/** The plan with other welds, and a secondary of a given shape cut from given stock. */
function secondaryOf(polygon: ControlPolygon, bends: readonly StockBend[], weld: Partial<WeldPlan> = {}) {
  const path = pathFromPolygon(polygon);
  const total = pathLength(path);
  const tube: RoutedSecondary = {
    ...base.secondaries[0]!,
    polygon,
    path,
    length: total,
    target: total,
    sections: [{ from: 0, od: 38.1, wall: 1.5 }],
  };
  const plan: Plan = {
    ...base.plan,
    secondaries: { ...base.plan.secondaries!, bends },
    weld: { ...base.plan.weld, ...weld },
  };
  return { plan, tube };
}

const quarter = (before: number, after: number): ControlPolygon => ({
  points: [
    [0, 0, 0],
    [before + 57.15, 0, 0],
    [before + 57.15, after + 57.15, 0],
  ],
  clr: [57.15],
});
const U = (leg: number): StockBend => ({ clr: 57.15, maxAngle: Math.PI, leg, shortLeg: leg });

describe('a piece of a bend', () => {
  it('has the arcs of OD 38.1 mm at CLR 57.15 mm, 90 deg', () => {
    // computed independently in closed form, not a publication
    const { plan, tube } = secondaryOf(quarter(40, 90), [U(60)]);
    const [bend, straight] = cutsOf(plan, tube).pieces;
    expect(bend!.centreArc).toBeCloseTo(89.771, 3);
    expect(bend!.insideArc).toBeCloseTo(59.847, 3);
    expect(bend!.outsideArc).toBeCloseTo(119.695, 3);
    expect([bend!.legBefore, bend!.legAfter, straight!.legBefore]).toEqual(
      [40, 0, 90].map((x) => expect.closeTo(x, 9)),
    );
  });
});

describe('gap and shrinkage', () => {
  it('come off the straights that meet, half each', () => {
    // leg of 20 mm on a split straight: bend with leg 60 | straight of 20 mm is a piece of its own where no other bend is
    const { plan, tube } = secondaryOf(quarter(90, 50), [U(60)], { gap: 1.2, shrinkage: 0.4 });
    const { pieces, total } = cutsOf(plan, tube);
    // the straight of 90 mm meets the bend itself: the bend has nothing to give
    expect(pieces.map((c) => c.cutLength)).toEqual([89.2, pieces[1]!.length].map((x) => expect.closeTo(x, 9)));
    expect(total).toBeCloseTo(tube.length, 9);
  });

  it('stay in the length where bend meets bend', () => {
    const polygon: ControlPolygon = {
      points: [
        [0, 0, 0],
        [97.15, 0, 0],
        [97.15, 114.3, 0],
        [97.15, 114.3, 97.15],
      ],
      clr: [57.15, 57.15],
    };
    const { plan, tube } = secondaryOf(polygon, [U(60)], { gap: 1, shrinkage: 0.25 });
    const { pieces, total, joints } = cutsOf(plan, tube);
    expect(pieces.map((c) => c.piece.kind)).toEqual(['bend', 'bend']);
    expect(joints.map((j) => j.gap)).toEqual([0, 1, 0]);
    expect(total - tube.length).toBeCloseTo(0.75, 9);
  });

  it('that draw together more than they gap make the straights longer', () => {
    const { plan, tube } = secondaryOf(quarter(90, 50), [U(60)], { shrinkage: 0.6 });
    const { pieces, total } = cutsOf(plan, tube);
    expect(pieces[0]!.cutLength).toBeCloseTo(90.6, 9);
    expect(total).toBeCloseTo(tube.length, 9);
  });
});

const weld = fc.record({
  gap: fc.constantFrom(0, 0.5, 1.6),
  shrinkage: fc.constantFrom(0, 0.3, 2),
});
const legs = fc.array(fc.tuple(fc.integer({ min: 0, max: 120 }), fc.integer({ min: 0, max: 60 })), {
  minLength: 5,
  maxLength: 5,
});

describe('cuts of random tubes', () => {
  const stockFor = ({ clr }: ControlPolygon, lengths: readonly (readonly [number, number])[]): StockBend[] =>
    clr.map((r, i) => {
      const [leg, less] = lengths[i]!;
      return { clr: r, maxAngle: radians(180), leg, shortLeg: Math.max(0, leg - less) };
    });

  it('sum to the route, bends can be made as cut, and allowances go nowhere unseen', () => {
    fc.assert(
      fc.property(arbitraryTube, legs, weld, (polygon, lengths, shop) => {
        const stock = stockFor(polygon, lengths);
        const { plan, tube } = secondaryOf(polygon, stock, shop);
        const { pieces, joints, start, total } = cutsOf(plan, tube);
        expect(joints).toHaveLength(pieces.length + 1);
        const route = pieces.reduce((sum, c) => sum + c.length, start);
        expect(Math.abs(route - tube.length)).toBeLessThan(1e-9);
        const d = shop.gap - shop.shrinkage;
        const cut = pieces.reduce((sum, c) => sum + c.cutLength, start);
        expect(Math.abs(cut + d * (joints.length - 2) - total)).toBeLessThan(1e-9);
        for (const c of pieces) {
          expect(Math.min(c.cutLegBefore, c.cutLegAfter)).toBeGreaterThanOrEqual(0);
          expect(c.cutLegBefore + (c.centreArc ?? 0) + c.cutLegAfter).toBeCloseTo(c.cutLength, 9);
          if (c.angle === null) continue;
          const bend = { clr: c.clr!, angle: c.angle, legBefore: c.cutLegBefore, legAfter: c.cutLegAfter };
          expect(stock.some((s) => cutFrom(bend, s))).toBe(true);
        }
        const roomy = joints.slice(1, -1).every((_, i) => {
          const [a, b] = [pieces[i]!, pieces[i + 1]!];
          return (
            Math.max(a.angle === null ? a.length / 2 : a.legAfter, b.angle === null ? b.length / 2 : b.legBefore) > 4
          );
        });
        if (roomy) expect(Math.abs(total - tube.length)).toBeLessThan(1e-9);
        expect(Math.abs(total - tube.length)).toBeLessThanOrEqual(Math.abs(d) * joints.length + 1e-9);
      }),
      { numRuns: 300 },
    );
  });

  it('walked from joint to joint by legs, angles and clocking alone end where the route ends', () => {
    fc.assert(
      fc.property(arbitraryTube, legs, (polygon, lengths) => {
        const { plan, tube } = secondaryOf(polygon, stockFor(polygon, lengths));
        const { pieces, joints } = cutsOf(plan, tube);
        const [first] = joints;
        const collector = plan.collectors[0]!.frame;
        fc.pre(Math.abs(dot(collector.x, first!.direction)) < 0.99);
        const { point, direction } = walked(
          { point: first!.point, direction: first!.direction, up: squareTo(collector.x, first!.direction) },
          pieces.map((c, i) => ({ ...c, clocking: joints[i]!.clocking! })),
        );
        const end = endOf(tube.path);
        expect(distance(point, end.point)).toBeLessThan(1e-6);
        expect(distance(direction, end.direction)).toBeLessThan(1e-9);
        for (const j of joints) expect(Math.abs(length(j.direction) - 1)).toBeLessThan(1e-9);
      }),
      { numRuns: 200 },
    );
  });
});

/** A direction laid square to another; the world's up where they are one. */
function squareTo(up: Vec3, along: Vec3): Vec3 {
  const side = cross(cross(along, up), along);
  const l = Math.sqrt(dot(side, side));
  return l > 1e-9 ? [side[0] / l, side[1] / l, side[2] / l] : [0, 1, 0];
}

describe('joints', () => {
  const { plan, primaries, secondaries } = base;

  it('have names, kinds and the pieces they join, from the flange or outlet to the collector', () => {
    const cuts = cutsOf(plan, primaries[0]!);
    expect(cuts.joints.map((j) => j.name)).toEqual(cuts.joints.map((_, i) => `J1.${i}`));
    expect(cuts.joints[0]).toMatchObject({ kind: 'flange', before: null, after: '1A', run: cuts.start });
    expect(cuts.joints.at(-1)).toMatchObject({ kind: 'collector', after: null, clocking: null, run: cuts.length });
    cuts.joints.slice(1, -1).forEach((j, i) => {
      expect(j).toMatchObject({
        kind: 'butt',
        before: cuts.pieces[i]!.piece.name,
        after: cuts.pieces[i + 1]!.piece.name,
      });
      expect([cuts.pieces[i]!.endJoint, cuts.pieces[i + 1]!.startJoint]).toEqual([j.name, j.name]);
    });
    expect(cutsOf(plan, secondaries[0]!).joints[0]).toMatchObject({ name: 'JY merge.0', kind: 'outlet', run: 0 });
  });

  it('at a step are as large as the larger tube, and as long as once round the middle of its wall', () => {
    const cuts = cutsOf(plan, primaries[0]!);
    const step = cuts.joints.find((j) => j.run === primaries[0]!.sections[1]!.from)!;
    expect([step.od, step.wall]).toEqual([45, 1.5]);
    expect(step.weldLength).toBeCloseTo(Math.PI * 43.5, 9);
  });

  it('carry the line of the outside along a straight: nothing to turn there', () => {
    for (const tube of primaries) {
      const { pieces, joints } = cutsOf(plan, tube);
      pieces.forEach((c, i) => {
        if (c.angle === null) expect(joints[i]!.clocking).toBeCloseTo(0, 12);
        else expect(joints[i]!.clockingRound).toBeCloseTo((joints[i]!.clocking! * c.od) / 2, 9);
      });
    }
  });
});
