import { expect, it } from 'vitest';
import { shapeOf } from '../../src/routing/chain.js';
import type { Section } from '../../src/routing/problem.js';

const R = 60;
/** Half of a turn of 150 degrees: tangents of both halves meet with nothing between. */
const HALF = (75 / 180) * Math.PI;
const T = R * Math.tan(HALF / 2);

/** 100 mm straight on, a bend of 150 degrees in two halves of 75, 100 mm straight. */
const along = (from: readonly number[], angle: number, by: number): [number, number, number] => [
  from[0]! + by * Math.cos(angle),
  from[1]! + by * Math.sin(angle),
  0,
];
const first = along([0, 0], 0, 100 + T);
const second = along(first, HALF, 2 * T);
const POLYGON = { points: [[0, 0, 0] as const, first, second, along(second, 2 * HALF, T + 100)], clr: [R, R] };

const sections = (at: number): Section[] => [
  { at: 0, within: 0, radius: 21, wall: 1.5, stock: [] },
  { at, within: 200, radius: 24, wall: 1.5, stock: [] },
];

it.each([
  [150, 100, [1, 1]],
  [99 + R * HALF, 100, [1, 1]],
  [220, 100 + 2 * R * HALF, [0, 0]],
])('a step meant at %d mm, within a bend in two halves, falls on an end of the whole bend', (at, run, of) => {
  const shape = shapeOf(POLYGON, sections(at), []);
  expect(Array.from(shape.joined)).toEqual([0, 1, 0]);
  expect(shape.steps[0]!.run).toBeCloseTo(run, 9);
  expect(Array.from(shape.sectionOf)).toEqual(of);
});
