import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { outlineContains } from '../../../src/geometry/outline/contains.js';
import { outlineToOutline } from '../../../src/geometry/outline/distance.js';
import { circleOutline, polygonOutline, rectangleOutline } from '../../../src/geometry/outline/make.js';
import { outlineArea, signedArea } from '../../../src/geometry/outline/measure.js';
import { sideLength, sidesOf } from '../../../src/geometry/outline/sides.js';
import { mirrorOutline, reverseOutline, rotateOutline } from '../../../src/geometry/outline/transform.js';
import { sharpestTurn } from '../../../src/geometry/outline/turn.js';
import { validateOutline } from '../../../src/geometry/outline/valid.js';
import type { Plan } from '../../../src/params/plan.js';
import { LEAST_SIDE } from '../../../src/parts/flange/edge.js';
import { flangesOf } from '../../../src/parts/flange/flange.js';
import { boltMargins, openingMargins } from '../../../src/parts/flange/margins.js';
import { plateDensity } from '../../../src/parts/plate-density.js';
import { randomHead } from '../../support/flange-arbitrary.js';
import { startAt } from '../../support/outline-poses.js';
import { boltAt, inlineFour, planWith, single, veeBank } from '../../support/plan-fixture.js';

const only = (plan: Plan) => flangesOf(plan)[0]!;

test('random heads of 1 to 8 ports: one sound tangent edge that keeps its metal (seed 22)', () => {
  fc.assert(
    fc.property(randomHead, (plan) => {
      const part = only(plan);
      const { outer, openings, bolts } = part.region;
      validateOutline(outer, { leastSide: LEAST_SIDE });
      validateOutline(part.cut.outer, { leastSide: LEAST_SIDE });
      expect(sharpestTurn(outer)).toBeLessThan(1e-6);
      for (const m of openingMargins(part)) expect(m.distance).toBeGreaterThan(plan.flange.portEdge - 1e-6);
      for (const m of boltMargins(part)) expect(m.distance).toBeGreaterThan(plan.flange.boltEdge - 1e-6);
      for (const o of openings)
        expect(outlineContains(outer, [o.outline.vertices[0]!.x, o.outline.vertices[0]!.y])).toBe(true);
      for (const b of bolts) expect(outlineContains(outer, b.at)).toBe(true);
      for (const s of sidesOf(outer)) {
        // Smoothing may tighten a fillet by a hair where it swallows a side.
        if (s.kind === 'arc' && s.sweep < 0) expect(s.radius).toBeGreaterThan(plan.flange.fillet * 0.5);
      }
      expect(part.area).toBeLessThan(outlineArea(outer));
    }),
    { seed: 22, numRuns: 120 },
  );
});

describe('a flange of one round port without bolts', () => {
  const part = only(
    planWith([{ at: [10, 20], outline: circleOutline([0, 0], 40) }], [], {
      portEdge: 9,
      opening: { match: 'port', enlarge: 1 },
      thickness: 8,
    }),
  );

  test('is a ring by closed form', () => {
    expect(outlineArea(part.region.outer)).toBeCloseTo(Math.PI * 30 ** 2, 6);
    expect(part.area).toBeCloseTo(Math.PI * (30 ** 2 - 21 ** 2), 6);
    expect(part.perimeter).toBeCloseTo(60 * Math.PI, 6);
    expect(part.cutLength).toBeCloseTo(102 * Math.PI, 6);
    expect(part.size).toEqual([expect.closeTo(60, 6), expect.closeTo(60, 6)]);
  });

  test('weighs what EN 1993-1-2 says of steel', () => {
    expect(part.mass).toBeCloseTo(Math.PI * (0.03 ** 2 - 0.021 ** 2) * 0.008 * 7850, 6);
  });
});

test('two bosses and a port make a flange that is convex where the belt is', () => {
  const part = only(single());
  expect(part.region.outer.vertices).toHaveLength(8);
  expect(Math.min(...openingMargins(part).map((m) => m.distance))).toBeCloseTo(9, 6);
  expect(Math.min(...boltMargins(part).map((m) => m.distance))).toBeCloseTo(8, 6);
});

describe('however the plan gives the ports, the flange is the same', () => {
  const plan = inlineFour();
  const area = only(plan).area;
  const withOutline = (change: (o: Plan['ports'][number]['outline']) => Plan['ports'][number]['outline']): Plan => ({
    ...plan,
    ports: plan.ports.map((p) => ({ ...p, outline: change(p.outline) })),
  });

  test.each([
    ['run backwards', withOutline(reverseOutline)],
    ['begun elsewhere', withOutline((o) => startAt(o, 2))],
    ['ports listed from the other end', { ...plan, ports: [...plan.ports].reverse() }],
    ['a quarter turn', turnedPlan(plan)],
    ['a mirror', mirroredPlan(plan)],
  ])('%s', (_, same) => {
    const part = only(same);
    expect(part.area).toBeCloseTo(area, 4);
    for (const o of part.region.openings) expect(signedArea(o.outline)).toBeGreaterThan(0);
  });
});

function turnedPlan(plan: Plan): Plan {
  return {
    ...plan,
    heads: plan.heads.map((h) => ({ ...h, bolts: h.bolts.map((b) => ({ ...b, at: [-b.at[1], b.at[0]] })) })),
    ports: plan.ports.map((p) => ({ ...p, at: [-p.at[1], p.at[0]], outline: rotateOutline(p.outline, 0, 1) })),
  };
}

function mirroredPlan(plan: Plan): Plan {
  return {
    ...plan,
    heads: plan.heads.map((h) => ({ ...h, bolts: h.bolts.map((b) => ({ ...b, at: [-b.at[0], b.at[1]] })) })),
    ports: plan.ports.map((p) => ({ ...p, at: [-p.at[0], p.at[1]], outline: mirrorOutline(p.outline) })),
  };
}

test('ports traced with 300 corners, wavy, make a sound flange too', () => {
  const corners = Array.from({ length: 300 }, (_, i) => {
    const a = (2 * Math.PI * i) / 300;
    const r = 20 + 2 * Math.sin(5 * a);
    return [r * Math.cos(a), r * Math.sin(a)] as const;
  });
  const outline = polygonOutline(corners);
  const kerf = { width: 1.6, compensate: true };
  const part = only(
    planWith(
      [0, 90].map((x) => ({ at: [x, 0], outline })),
      [boltAt([45, 20])],
      { kerf, opening: { match: 'port', enlarge: 1 } },
    ),
  );
  validateOutline(part.region.outer, { leastSide: LEAST_SIDE });
  expect(sharpestTurn(part.region.outer)).toBeLessThan(1e-6);
  for (const o of part.cut.openings) validateOutline(o.outline);
});

describe('where bosses fall together', () => {
  const port = (x: number, y = 0) => ({ at: [x, y] as const, outline: circleOutline([0, 0], 40) });
  test.each([
    ['two bolts in one place', planWith([port(0), port(90)], [boltAt([45, 20]), boltAt([45, 20])])],
    ['a bolt in the middle of a port', planWith([port(0), port(90)], [boltAt([0, 0])])],
    ['bolts on the line of ports', planWith([port(0), port(90)], [boltAt([45, 0]), boltAt([-40, 0])])],
    ['ports that overlap', planWith([port(0), port(20), port(20)], [boltAt([10, 40])])],
    ['ports in two rows', planWith([port(0), port(0, 60), port(90), port(90, 60)], [boltAt([45, 30])])],
    ['a boss that touches the strip from inside', planWith([port(0), port(90)], [boltAt([45, 29 - 12.5])])],
    [
      'a fillet larger than the flange',
      planWith([port(0), port(90)], [boltAt([45, 30]), boltAt([-50, -50])], { fillet: 100 }),
    ],
    ['a bolt far off', planWith([port(0)], [boltAt([45, 200])])],
  ])('%s', (_, plan) => {
    const { outer } = only(plan).region;
    validateOutline(outer, { leastSide: LEAST_SIDE });
    expect(sharpestTurn(outer)).toBeLessThan(1e-6);
  });
});

describe('small holes', () => {
  // A vendor's figure for plasma, hole at least 1.5 x thickness: common practice.
  test.each([
    [6, false],
    [6.01, true],
    [10, true],
  ])('a 9 mm hole in %d mm plate: drilled %s', (thickness, drill) => {
    const part = only(inlineFour({ thickness }));
    expect(part.region.bolts.every((b) => b.drill === drill)).toBe(true);
    expect(part.notes.some((n) => n.includes('drill'))).toBe(drill);
  });
});

describe('kerf', () => {
  const kerf = { width: 1.6, compensate: true };

  test('left to the cutter, the path is the finished flange, begun in the middle of its longest straight sides', () => {
    const part = only(veeBank());
    expect(outlineArea(part.cut.outer)).toBeCloseTo(outlineArea(part.region.outer), 9);
    expect(part.cut.bolts).toEqual(part.region.bolts);
    const longest = Math.max(...sidesOf(part.region.outer).map((s) => (s.kind === 'line' ? sideLength(s) : 0)));
    const sides = sidesOf(part.cut.outer);
    for (const s of [sides[0]!, sides.at(-1)!]) {
      expect(s.kind).toBe('line');
      expect(sideLength(s)).toBeCloseTo(longest / 2, 1);
    }
  });

  test('moved, it lies half a kerf outside the edge and inside openings and holes', () => {
    const part = only(veeBank({ kerf, thickness: 6 }));
    expect(outlineToOutline(part.cut.outer, part.region.outer).distance).toBeCloseTo(0.8, 6);
    expect(outlineArea(part.cut.outer)).toBeGreaterThan(outlineArea(part.region.outer));
    for (const [i, o] of part.cut.openings.entries()) {
      expect(outlineArea(o.outline)).toBeCloseTo((Math.PI * (41 - 1.6) ** 2) / 4, 6);
      expect(outlineArea(part.region.openings[i]!.outline)).toBeCloseTo((Math.PI * 41 ** 2) / 4, 6);
    }
    for (const b of part.cut.bolts) expect(b.diameter).toBeCloseTo(10.5 - 1.6, 12);
  });

  test('drilled holes keep their size', () => {
    for (const b of only(inlineFour({ kerf })).cut.bolts) expect(b.diameter).toBe(9);
  });

  test('a kerf wider than a hole is refused by name', () => {
    expect(() => only(inlineFour({ thickness: 5, kerf: { width: 9, compensate: true } }))).toThrow(/kerf of 9 mm/);
  });
});

describe('one flange for each head that has ports', () => {
  const plan = veeBank();
  const two: Plan = {
    ...plan,
    heads: [
      { ...plan.heads[0]!, name: 'Left bank' },
      { ...plan.heads[0]!, name: 'Höger / right' },
      { ...plan.heads[0]!, name: 'spare' },
    ],
    ports: [...plan.ports, ...plan.ports.map((p) => ({ ...p, head: 1, cylinder: p.cylinder + 4 }))],
  };

  test('with names that are safe as file names', () => {
    expect(flangesOf(plan).map((p) => p.name)).toEqual(['flange']);
    expect(flangesOf(two).map((p) => [p.name, p.head])).toEqual([
      ['flange-left-bank', 0],
      ['flange-hoger-right', 1],
    ]);
  });

  test('with its own cylinders', () => {
    expect(flangesOf(two)[1]!.region.openings.map((o) => o.cylinder)).toEqual([5, 6, 7, 8]);
  });

  test('two heads of one name keep two files', () => {
    const same = { ...two, heads: two.heads.map((h) => ({ ...h, name: 'Bank' })) };
    expect(flangesOf(same).map((p) => p.name)).toEqual(['flange-bank', 'flange-bank-2']);
  });
});

test('an opening grown by 1 mm is 1 mm from the port all round', () => {
  const outline = rectangleOutline(44, 36, 18);
  const part = only(planWith([{ at: [0, 0], outline }], [boltAt([40, 0])], { opening: { match: 'port', enlarge: 1 } }));
  expect(outlineToOutline(outline, part.region.openings[0]!.outline).distance).toBeCloseTo(1, 9);
});

// EN 10088-1 for stainless, EN 1993-1-2 for carbon steel.
test.each([
  ['mild steel', 7850],
  ['S235JR', 7850],
  ['304', 7900],
  ['stainless 321', 7900],
  ['1.4301', 7900],
  ['409', 7700],
])('density of %s is %d kg/m3', (material, density) => {
  expect(plateDensity(material)).toBe(density);
});
