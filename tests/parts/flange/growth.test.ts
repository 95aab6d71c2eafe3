import { describe, expect, test } from 'vitest';
import { boltGrowth } from '../../../src/checks/flange-growth.js';
import { circleOutline } from '../../../src/geometry/outline/make.js';
import type { GrowthPlan } from '../../../src/params/plan/flange.js';
import { expansionBetween, expansionFrom20, FREEZING, flangeMetalOf } from '../../../src/params/tables/expansion.js';
import { flangesOf } from '../../../src/parts/flange/flange.js';
import { boltAt, inlineFour, planWith } from '../../support/plan-fixture.js';

const at = (celsius: number): number => celsius + FREEZING;

describe('free expansion from 20 degrees', () => {
  // EN 1993-1-2, 3.4.1.1: 1.2e-5 t + 0.4e-8 t^2 - 2.416e-4; at 600 degrees 8.398e-3.
  test('of carbon steel at 600 degrees is 8.398e-3, and nothing at 20', () => {
    expect(expansionFrom20('carbon_steel', at(600))).toBeCloseTo(8.3984e-3, 7);
    expect(expansionFrom20('carbon_steel', at(20))).toBeCloseTo(0, 9);
  });

  // EN 10088-1, 1.4301: mean coefficients from 20 degrees to 100, 200, 300, 400, 500 degrees.
  test.each([
    [100, 16.0],
    [200, 16.5],
    [300, 17.0],
    [400, 17.5],
    [500, 18.0],
  ])('of austenitic steel to %d degrees is the mean %d e-6 per degree', (celsius, mean) => {
    expect(expansionFrom20('austenitic', at(celsius)) / (celsius - 20)).toBeCloseTo(mean * 1e-6, 12);
  });

  // EN 10088-1, 410S as the nearest to 1.4512.
  test.each([
    [100, 10.5],
    [300, 11.5],
    [500, 12.0],
  ])('of ferritic steel to %d degrees is the mean %d e-6 per degree', (celsius, mean) => {
    expect(expansionFrom20('ferritic', at(celsius)) / (celsius - 20)).toBeCloseTo(mean * 1e-6, 12);
  });

  // EN 1993-1-2 annex C, formula from memory: (16 + 4.79e-3 t - 1.243e-6 t^2)(t - 20)e-6; at 600 degrees 10.687e-3.
  test('of austenitic steel beyond the table follows EN 1993-1-2 annex C', () => {
    expect(expansionFrom20('austenitic', at(600))).toBeCloseTo(10.687e-3, 6);
  });

  test('between the rows lies between them, and rises all the way', () => {
    const mean = expansionFrom20('austenitic', at(250)) / 230;
    expect(mean).toBeCloseTo(16.75e-6, 12);
    for (const metal of ['carbon_steel', 'austenitic', 'ferritic', 'aluminium', 'cast_iron'] as const) {
      for (let t = 30; t <= 750; t += 10) {
        expect(expansionFrom20(metal, at(t)), `${metal} ${t}`).toBeGreaterThan(expansionFrom20(metal, at(t - 10)));
      }
    }
  });

  test('from any cold to hot and back is one', () => {
    const there = expansionBetween('austenitic', at(5), at(480));
    const back = expansionBetween('austenitic', at(480), at(5));
    expect((1 + there) * (1 + back)).toBeCloseTo(1, 12);
  });

  test.each([
    ['mild steel', 'carbon_steel'],
    ['S235JR', 'carbon_steel'],
    ['304 stainless', 'austenitic'],
    ['1.4541', 'austenitic'],
    ['1.4828', 'austenitic'],
    ['310 plate', 'austenitic'],
    ['409', 'ferritic'],
    ['1.4512', 'ferritic'],
    ['1.4016', 'ferritic'],
    ['1.4742', 'ferritic'],
  ])('%s is %s', (words, metal) => {
    expect(flangeMetalOf(words)).toBe(metal);
  });
});

const GROWTH: GrowthPlan = {
  headMetal: 'aluminium',
  flangeMetal: 'carbon_steel',
  cold: at(20),
  headHot: at(120),
  flangeHot: at(600),
  fixed: 'middle',
  holes: 'slot',
};

/** Three bolts in a row 150 mm apart over two ports. */
const row = (growth: GrowthPlan | null) =>
  planWith(
    [75, 225].map((x) => ({ at: [x, 0] as const, outline: circleOutline([0, 0], 40) })),
    [0, 150, 300].map((x) => boltAt([x, 0])),
    { growth, thickness: 6 },
  );

// EN 1993-1-2 for the flange; 23.1e-6 per degree for aluminium, from memory.
const RATE = (1 + 8.3984e-3) / 1 - 1 - 23.1e-6 * 100;

describe('bolt holes with room for growth', () => {
  test('the middle one stays round, the others are as much longer as twice the slip', () => {
    const { region, growth } = flangesOf(row(GROWTH))[0]!;
    expect(region.bolts[1]!.slot).toBeNull();
    for (const i of [0, 2]) {
      expect(growth[i]!.slip).toBeCloseTo(150 * RATE, 5);
      expect(region.bolts[i]!.slot!.length).toBeCloseTo(9 + 2 * 150 * RATE, 4);
      expect(Math.abs(Math.cos(region.bolts[i]!.slot!.angle))).toBeCloseTo(1, 12);
      expect(region.bolts[i]!.diameter).toBe(9);
    }
  });

  test('from a chosen bolt the far end gets twice the room of the middle', () => {
    const { region, notes } = flangesOf(row({ ...GROWTH, fixed: 1 }))[0]!;
    expect(region.bolts[0]!.slot).toBeNull();
    const more = region.bolts.map((b) => (b.slot?.length ?? 9) - 9);
    expect(more[2]! / more[1]!).toBeCloseTo(2, 9);
    expect(notes.some((n) => n.includes('bolt 3: 300.0 mm away'))).toBe(true);
  });

  test('round holes grow by as much', () => {
    const { region } = flangesOf(row({ ...GROWTH, holes: 'round' }))[0]!;
    expect(region.bolts.map((b) => b.diameter)).toEqual(
      [9 + 300 * RATE, 9, 9 + 300 * RATE].map((d) => expect.closeTo(d, 4)),
    );
    expect(region.bolts.every((b) => b.slot === null)).toBe(true);
  });

  test('slots point at the fixed bolt', () => {
    const { region } = flangesOf(inlineFour({ growth: { ...GROWTH, fixed: 8 } }))[0]!;
    const fixed = region.bolts[7]!;
    for (const b of region.bolts) {
      if (b === fixed) continue;
      const way = Math.atan2(b.at[1] - fixed.at[1], b.at[0] - fixed.at[0]);
      expect(Math.sin(b.slot!.angle - way)).toBeCloseTo(0, 12);
    }
  });

  test('the check gives slip and room at every bolt', () => {
    const plan = row(GROWTH);
    const found = boltGrowth({ plan, flanges: flangesOf(plan) } as never);
    expect(found.map((f) => f.level)).toEqual(['ok', 'ok', 'ok']);
    expect(found[0]!.value).toBeCloseTo(150 * RATE, 5);
    // half of hole less thread, and the slip
    expect(found[0]!.limit).toBeCloseTo(0.5 + 150 * RATE, 4);
    expect(boltGrowth({ plan: row(null), flanges: [] } as never)).toEqual([]);
  });
});
