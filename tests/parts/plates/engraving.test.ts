import fc from 'fast-check';
import { expect, test } from 'vitest';
import { outlineContains } from '../../../src/geometry/outline/contains.js';
import { pointToOutline } from '../../../src/geometry/outline/distance.js';
import { circleOutline } from '../../../src/geometry/outline/make.js';
import { flangesOf } from '../../../src/parts/flange/flange.js';
import { engravingOf } from '../../../src/parts/plates/engraving.js';
import { flatFlange } from '../../../src/parts/plates/flat-flange.js';
import { randomHead } from '../../support/flange-arbitrary.js';

test('marks stand on the metal of random heads, clear of every line (seed 53)', () => {
  fc.assert(
    fc.property(randomHead, (plan) => {
      for (const part of flangesOf(plan)) {
        const { region, engraving, notes } = flatFlange(part);
        const gaps = [...[...region.openings, ...region.holes].map((o) => o.outline), ...region.slots];
        for (const p of engraving.flat()) {
          expect(outlineContains(region.outer, p)).toBe(true);
          expect(gaps.some((o) => outlineContains(o, p))).toBe(false);
          for (const o of [region.outer, ...gaps]) expect(pointToOutline(p, o).distance).toBeGreaterThan(1 - 1e-9);
        }
        if (!notes.some((n) => n.startsWith('no room to mark')))
          expect(engraving.length).toBeGreaterThan(region.openings.length);
      }
    }),
    { seed: 53, numRuns: 25 },
  );
});

test('what finds no room is said, not squeezed in', () => {
  const region = {
    outer: circleOutline([0, 0], 60),
    openings: [{ place: 'bore', label: '', outline: circleOutline([0, 0], 56) }],
    slots: [],
    holes: [],
  };
  expect(engravingOf(region, [{ words: 'ring', near: [0, 0] }])).toEqual({ strokes: [], homeless: ['ring'] });
});
