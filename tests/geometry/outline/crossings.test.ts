import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { onSide, sideCrossings } from '../../../src/geometry/outline/crossings.js';
import {
  arcAbout,
  directionAlong,
  type LineSide,
  pointAlong,
  reverseSide,
  type Side,
} from '../../../src/geometry/outline/sides.js';
import { add2, scale2 } from '../../../src/geometry/vec2.js';

const line = (x: number, y: number, u: number, v: number): LineSide => ({ kind: 'line', from: [x, y], to: [u, v] });

describe('known crossings', () => {
  const half = arcAbout([0, 0], 10, 0, Math.PI);
  test.each<[string, Side, Side, number]>([
    ['lines across', line(0, 0, 10, 10), line(0, 10, 10, 0), 1],
    ['lines that would meet further on', line(0, 0, 1, 1), line(0, 10, 10, 0), 0],
    ['lines side by side', line(0, 0, 10, 0), line(0, 1, 10, 1), 0],
    ['lines on each other share the ends of what they share', line(0, 0, 10, 0), line(4, 0, 20, 0), 2],
    ['a line through both flanks of an arc', line(-20, 5, 20, 5), half, 2],
    ['a line below it', line(-20, -5, 20, -5), half, 0],
    ['a line on its top', line(-20, 10, 20, 10), half, 1],
    ['circles across', half, arcAbout([10, 0], 10, 0, 6.28), 1],
    ['circles that touch from outside', half, arcAbout([0, 15], 5, 0, 6.28), 1],
    ['circles that touch from inside', half, arcAbout([0, 5], 5, 0, 6.28), 1],
    ['circles about one centre', half, arcAbout([0, 0], 5, 0, 6.28), 0],
    ['arcs of one circle share the ends of what they share', half, arcAbout([0, 0], 10, 1, 4), 2],
  ])('%s: %#', (_, a, b, count) => {
    for (const [p, q] of [
      [a, b],
      [b, a],
      [reverseSide(a), b],
      [a, reverseSide(b)],
    ] as const) {
      const found = sideCrossings(p, q);
      expect(found).toHaveLength(count);
      for (const point of found) expect(onSide(point, a, 1e-7) && onSide(point, b, 1e-7)).toBe(true);
    }
  });
});

test('a side and its tangent continuation meet once, in the point they share, up to 2 m radius (seed 24)', () => {
  const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  fc.assert(
    fc.property(
      number(-500, 500),
      number(-500, 500),
      number(1, 2000),
      number(0, 6.28),
      number(0.2, 3),
      number(1, 2000),
      (x, y, r, start, sweep, next) => {
        const arc = arcAbout([x, y], r, start, sweep);
        const way = directionAlong(arc, 1);
        const straight: Side = { kind: 'line', from: arc.to, to: add2(arc.to, scale2(way, 50)) };
        expect(sideCrossings(arc, straight)).toEqual([arc.to]);
        // A smaller or larger arc that goes on the same way.
        fc.pre(Math.abs(next - r) > 0.5);
        const out = start + sweep;
        const centre = add2(arc.to, [-next * Math.cos(out), -next * Math.sin(out)]);
        const onward = { ...arcAbout(centre, next, out, 0.2), from: arc.to };
        expect(sideCrossings(arc, onward)).toEqual([arc.to]);
        expect(pointAlong(onward, 0)).toEqual(arc.to);
      },
    ),
    { seed: 24, numRuns: 400 },
  );
});
