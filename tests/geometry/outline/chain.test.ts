import { expect, test } from 'vitest';
import { chainSides, rejoinSides } from '../../../src/geometry/outline/chain.js';
import { circleOutline, rectangleOutline, splitArcs } from '../../../src/geometry/outline/make.js';
import { signedArea } from '../../../src/geometry/outline/measure.js';
import { outlineOfSides, reverseSide, type Side, sidesOf } from '../../../src/geometry/outline/sides.js';

const square = sidesOf(rectangleOutline(20, 20));
const spur: Side = { kind: 'line', from: [10, -10], to: [0, 0] };

test('loose sides in any order become their outlines', () => {
  const pieces = [...sidesOf(circleOutline([50, 0], 10)), ...square].reverse();
  const areas = chainSides(pieces)
    .map(signedArea)
    .sort((a, b) => a - b);
  expect(areas).toEqual([expect.closeTo(25 * Math.PI, 9), expect.closeTo(400, 9)]);
});

test('pieces that lead nowhere, or come from nowhere, do not break an outline', () => {
  for (const loose of [spur, reverseSide(spur)]) {
    const outlines = chainSides([loose, ...square]);
    expect(outlines.map(signedArea)).toEqual([expect.closeTo(400, 9)]);
  }
});

test('outlines that touch at a corner stay two', () => {
  const beside = square.map(
    (s): Side => ({ kind: 'line', from: [s.from[0] + 20, s.from[1] + 20], to: [s.to[0] + 20, s.to[1] + 20] }),
  );
  expect(chainSides([...square, ...beside]).map(signedArea)).toEqual([expect.closeTo(400, 9), expect.closeTo(400, 9)]);
});

test('ends that miss by a rounding meet, ends that miss by a hair do not', () => {
  const moved = (by: number): Side[] =>
    square.map((s, i): Side => (i === 0 ? { kind: 'line', from: [s.from[0] + by, s.from[1]], to: s.to } : s));
  expect(chainSides(moved(1e-9))).toHaveLength(1);
  expect(chainSides(moved(1e-2))).toHaveLength(0);
});

test('sides on one line or one circle are joined, across the start too', () => {
  const halves = square.flatMap((s): Side[] => {
    const middle = [(s.from[0] + s.to[0]) / 2, (s.from[1] + s.to[1]) / 2] as const;
    return [
      { kind: 'line', from: s.from, to: middle },
      { kind: 'line', from: middle, to: s.to },
    ];
  });
  const begunMidway = [...halves.slice(1), halves[0]!];
  expect(rejoinSides(begunMidway)).toHaveLength(4);
  const cut = sidesOf(splitArcs(circleOutline([1, 2], 30), 0.2));
  const joined = outlineOfSides(rejoinSides(cut));
  expect(joined.vertices.length).toBeLessThanOrEqual(3);
  expect(signedArea(joined)).toBeCloseTo(225 * Math.PI, 8);
});
