import { expect, test } from 'vitest';
import { circleOutline } from '../../../src/geometry/outline/make.js';
import { flangesOf } from '../../../src/parts/flange/flange.js';
import { boltMargins, type FlangeMargin, openingMargins, websOf } from '../../../src/parts/flange/margins.js';
import { boltAt, planWith } from '../../support/plan-fixture.js';

const least = (margins: readonly FlangeMargin[]): number => Math.min(...margins.map((m) => m.distance));

const port = (x: number) => ({ at: [x, 0] as const, outline: circleOutline([0, 0], 40) });

test('webs between openings and holes are exact, the thinnest first, with their places', () => {
  const part = flangesOf(planWith([port(0), port(90)], [boltAt([30, 0])]))[0]!;
  const webs = websOf(part);
  expect(webs.map((w) => [w.place, w.against])).toEqual([
    ['cylinder 1', 'bolt 1'],
    ['cylinder 2', 'bolt 1'],
    ['cylinder 1', 'cylinder 2'],
  ]);
  expect(webs.map((w) => w.distance)).toEqual([30 - 20 - 4.5, 60 - 20 - 4.5, 50].map((d) => expect.closeTo(d, 9)));
});

test('overlaps are not taken for metal', () => {
  const inside = flangesOf(planWith([port(0)], [boltAt([5, 0])]))[0]!;
  expect(least(websOf(inside))).toBeCloseTo(-(20 - 5 - 4.5), 9);
  const across = flangesOf(planWith([port(0)], [boltAt([20, 0])]))[0]!;
  expect(least(websOf(across))).toBeLessThanOrEqual(0);
});

test('edges hold what the plan asks and name every opening and hole', () => {
  const part = flangesOf(
    planWith([port(0), port(90)], [boltAt([45, 30]), boltAt([-40, 0])], { portEdge: 7, boltEdge: 6 }),
  )[0]!;
  expect(openingMargins(part).map((m) => m.place)).toEqual(['cylinder 1', 'cylinder 2']);
  expect(boltMargins(part).map((m) => m.place)).toEqual(['bolt 1', 'bolt 2']);
  expect(least(openingMargins(part))).toBeCloseTo(7, 1);
  expect(least(boltMargins(part))).toBeGreaterThan(6 - 1e-6);
});
