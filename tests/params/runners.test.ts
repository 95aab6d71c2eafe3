import { describe, expect, test } from 'vitest';
import { BASE, planFrom, problemAfter, problemsOf, swap } from './base-plan.js';

const runners = (fields: string) => swap(BASE, 'length: 600', fields);

describe('target length', () => {
  test('a band is chosen from; its middle stands for the length', () => {
    expect(planFrom(runners('length: { from: 580, to: 25 in }')).runners).toMatchObject({
      length: 607.5,
      band: { from: 580, to: 635 },
    });
    expect(planFrom(BASE).runners.band).toBeNull();
  });

  test.each([
    [
      'length: abc',
      'length: expected a length such as 760, a band such as { from: 740, to: 800 }, or tuned, found "abc"',
    ],
    [
      'length: [580, 635]',
      'length: expected a length such as 760, a band such as { from: 740, to: 800 }, or tuned, found [580,635]',
    ],
    [
      'length: "600"',
      'length: expected a length such as 44.45 or "1.75 in", found "600" without a unit: leave the quotes away or add mm or in',
    ],
    ['length: -5', 'length: expected a length over 0 mm and at most 10000 mm, found -5 mm'],
    ['length: { from: 580 }', 'length.to: missing; expected a length such as 44.45 or "1.75 in"'],
    ['length: { from: x, to: 600 }', 'length.from: expected a length such as 44.45 or "1.75 in", found "x"'],
    [
      'length: { from: 600, to: 600 }',
      'length.to: expected a length over 600 mm, the shortest, found 600 mm; for one length leave from and to away',
    ],
    [
      'length: { from: 600, to: 580 }',
      'length.to: expected a length over 600 mm, the shortest, found 580 mm; for one length leave from and to away',
    ],
    ['length: { from: 580, too: 600, to: 650 }', 'length.too: unknown field; did you mean "to"?'],
  ])('%j is refused', (fields, message) => {
    const [problem, ...more] = problemsOf(runners(fields));
    expect(`${problem!.path}: ${problem!.message}`).toBe(`runners.${message}`);
    expect(problem!.line).toBe(31);
    expect(more).toEqual([]);
  });

  test('a plan without any says so once', () => {
    expect(problemAfter('runners:\n  length: 600', 'runners: {}')).toBe(
      'plan.yaml:30:1 runners.length: missing; expected a length such as 760, a band such as { from: 740, to: 800 }, or tuned',
    );
  });
});

describe('weights and budget of the route search', () => {
  test('what is left out keeps its usual weight', () => {
    const { weights, budget } = planFrom(
      runners('length: 600\n  weights: { bend: 0, scrap: 7.5 }\n  budget: 90'),
    ).runners;
    expect(weights).toEqual({ bend: 0, turning: 12, tightness: 8, closeness: 30, scrap: 7.5 });
    expect(budget).toBe(90);
  });

  test.each([
    ['weights: { bend: -1 }', 'weights.bend: expected a number from 0 to 1000, found -1'],
    ['weights: { scrap: 1001 }', 'weights.scrap: expected a number from 0 to 1000, found 1001'],
    ['weights: { turning: much }', 'weights.turning: expected a number from 0 to 1000, found "much"'],
    ['weights: { bends: 1 }', 'weights.bends: unknown field; did you mean "bend"?'],
    ['weights: 3', 'weights: expected a section with fields, found 3'],
    ['budget: 0', 'budget: expected a number from 1 to 600, found 0'],
    ['budget: 601', 'budget: expected a number from 1 to 600, found 601'],
    ['budget: 20 s', 'budget: expected a number from 1 to 600, found "20 s"'],
    ['heat_distance: -1', 'heat_distance: expected a length from 0 mm to 500 mm, found -1 mm'],
  ])('%j is refused', (fields, message) => {
    expect(problemsOf(runners(`length: 600\n  ${fields}`)).map((p) => `${p.line} ${p.path}: ${p.message}`)).toEqual([
      `32 runners.${message}`,
    ]);
  });
});
