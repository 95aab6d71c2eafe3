import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { chainContours } from '../../../src/geometry/contour/chain.js';
import type { Piece } from '../../../src/geometry/contour/contour.js';
import { refuseCrossing } from '../../../src/geometry/contour/crossing.js';
import { outlineArea } from '../../../src/geometry/outline/measure.js';
import {
  bulgeOf,
  outlineOfSides,
  reverseSide,
  type Side,
  sideBetween,
  sidesOf,
} from '../../../src/geometry/outline/sides.js';
import type { Vec2 } from '../../../src/geometry/vec2.js';
import { convexOutline } from '../../support/outline-arbitrary.js';

const pieceOf = (side: Side, i: number): Piece => ({
  name: `piece ${i}`,
  closed: false,
  sides: [{ side, name: `piece ${i}`, error: 0 }],
});

const areaOf = (contour: readonly { readonly side: Side }[]): number =>
  outlineArea(outlineOfSides(contour.map((s) => s.side)));

/** The sides of an outline in any order, each run either way, its ends off by at most `off` mm. */
const muddled = (off: number) =>
  fc
    .record({
      outline: convexOutline,
      order: fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 8, maxLength: 8 }),
      back: fc.array(fc.boolean(), { minLength: 8, maxLength: 8 }),
      shifts: fc.array(fc.double({ min: -off, max: off, noNaN: true }), { minLength: 32, maxLength: 32 }),
    })
    .map(({ outline, order, back, shifts }) => {
      const moved = (p: Vec2, k: number): Vec2 => [p[0] + shifts[2 * k]! / 2, p[1] + shifts[2 * k + 1]! / 2];
      const sides = sidesOf(outline).map((s, i) => {
        const shifted = off === 0 ? s : sideBetween(moved(s.from, 2 * i), moved(s.to, 2 * i + 1), bulgeOf(s));
        return { side: back[i] ? reverseSide(shifted) : shifted, by: order[i]! };
      });
      return { outline, pieces: sides.sort((a, b) => a.by - b.by).map((s, i) => pieceOf(s.side, i)) };
    });

describe('loose pieces', () => {
  test('in any order and run either way give the one contour they are', () => {
    fc.assert(
      fc.property(muddled(0), ({ outline, pieces }) => {
        const { contours, healed, doubled } = chainContours(pieces, 0.1);
        expect(contours).toHaveLength(1);
        refuseCrossing(contours[0]!);
        expect(contours[0]).toHaveLength(outline.vertices.length);
        expect(areaOf(contours[0]!)).toBeCloseTo(outlineArea(outline), 6);
        expect([...healed, ...doubled]).toEqual([]);
        contours[0]!.forEach(({ side }, i) => {
          expect(contours[0]![(i + 1) % contours[0]!.length]!.side.from).toEqual(side.to);
        });
      }),
    );
  });

  test('with gaps up to heal close, and no gap told is larger', () => {
    fc.assert(
      fc.property(muddled(0.05), ({ outline, pieces }) => {
        const { contours, healed } = chainContours(pieces, 0.15);
        expect(contours).toHaveLength(1);
        expect(Math.abs(areaOf(contours[0]!) - outlineArea(outline))).toBeLessThan(0.1 * 250);
        for (const { gap } of healed) expect(gap).toBeLessThanOrEqual(0.15);
      }),
    );
  });

  test('of several contours are told apart, in the order they are drawn', () => {
    const square = (x: number) =>
      [
        [x, 0],
        [x + 9, 0],
        [x + 9, 9],
        [x, 9],
      ].map(
        (p, i, all): Side => ({ kind: 'line', from: p as unknown as Vec2, to: all[(i + 1) % 4] as unknown as Vec2 }),
      );
    const mixed = [0, 1, 2, 3].flatMap((i) => [square(50)[i]!, square(0)[i]!]).map(pieceOf);
    const { contours } = chainContours(mixed, 0);
    expect(contours.map((c) => Math.min(...c.map((s) => s.side.from[0])))).toEqual([50, 0]);
  });

  test('an open piece that comes back to its start is closed; a crumb that could is not', () => {
    const arc: Side = sideBetween([20, 0.02], [20, -0.02], 200);
    expect(chainContours([pieceOf(arc, 0)], 0.1).healed).toHaveLength(1);
    const crumb: Side = { kind: 'line', from: [0, 0], to: [0.05, 0] };
    expect(() => chainContours([pieceOf(crumb, 0)], 0.1)).toThrow('piece 0 ends loose at 0, 0 mm');
  });
});
