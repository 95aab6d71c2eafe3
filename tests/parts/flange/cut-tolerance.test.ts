import { expect, test } from 'vitest';
import { cutTolerance } from '../../../src/checks/flange-cut.js';
import { circleOutline } from '../../../src/geometry/outline/make.js';
import { cutDeviation } from '../../../src/parts/flange/cut-tolerance.js';
import { flangesOf } from '../../../src/parts/flange/flange.js';
import { boltAt, planWith } from '../../support/plan-fixture.js';

// ISO 9013:2017, limit deviations for nominal dimensions, classes 1 and 2, as published by a cutting shop.
test.each([
  [1, 6, 9, 0.2],
  [1, 6.3, 10, 0.2],
  [1, 6.31, 10.01, 0.3],
  [1, 8, 200, 0.35],
  [1, 12, 600, 0.55],
  [2, 5, 9, 0.8],
  [2, 6, 400, 1.2],
  [2, 10, 9, 1],
  [2, 10, 100, 1.3],
  [2, 10, 300, 1.4],
  [2, 10, 365, 1.5],
  [2, 12, 100, 1.8],
  [2, 15, 1000, 2.3],
] as const)('class %d, %d mm plate, %d mm long: %d mm', (cutClass, thickness, nominal, deviation) => {
  expect(cutDeviation(cutClass, thickness, nominal)).toBe(deviation);
});

test.each([
  [3, 100],
  [16, 100],
  [10, 3],
  [10, 1001],
])('%d mm plate, %d mm long: not in the table', (thickness, nominal) => {
  expect(cutDeviation(2, thickness, nominal)).toBeNull();
});

const checked = (hole: number, cutClass: 1 | 2, thickness: number) => {
  const plan = planWith(
    [0, 300].map((x) => ({ at: [x, 0], outline: circleOutline([0, 0], 40) })),
    [boltAt([-40, 0], hole), boltAt([340, 0], hole)],
    { cutClass, thickness },
  );
  return cutTolerance({ plan, flanges: flangesOf(plan) } as never)[0]!;
};

test('a drilled M8 in a 9 mm hole has 0.5 mm to spare; class 2 wants 0.75, class 1 0.225', () => {
  // ISO 273 medium: 9 mm for M8. 380 mm between the bolts, 10 mm plate.
  expect(checked(9, 2, 10)).toMatchObject({ level: 'warn', value: 0.75, limit: 0.5 });
  expect(checked(9, 1, 10)).toMatchObject({ level: 'ok', value: 0.225, limit: 0.5 });
  expect(checked(9, 2, 10).message).toContain('1.50 mm on the 380.0 mm');
});

test('a hole that is cut adds half its own deviation', () => {
  // 6 mm plate, class 1: 0.40 over 315 to 1000 mm, 0.20 on a hole up to 10 mm.
  expect(checked(9, 1, 6).value).toBeCloseTo(0.2 + 0.1, 12);
});

test('a thickness without a figure is said and not held against the flange', () => {
  expect(checked(9, 2, 20)).toMatchObject({ level: 'ok', message: expect.stringContaining('no figure') });
});
