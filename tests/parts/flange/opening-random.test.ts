import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { frameFacing } from '../../../src/geometry/frame.js';
import { outlineContains } from '../../../src/geometry/outline/contains.js';
import { outlineToOutline, pointToOutline } from '../../../src/geometry/outline/distance.js';
import { flattenOutline } from '../../../src/geometry/outline/flatten.js';
import { sharpestTurn } from '../../../src/geometry/outline/turn.js';
import { validateOutline } from '../../../src/geometry/outline/valid.js';
import type { OpeningPlan } from '../../../src/params/plan/flange.js';
import { LEAST_SIDE } from '../../../src/parts/flange/edge.js';
import { flangesOf } from '../../../src/parts/flange/flange.js';
import { openingMargins } from '../../../src/parts/flange/margins.js';
import { randomHead } from '../../support/flange-arbitrary.js';

const OPENINGS: readonly OpeningPlan[] = [
  { match: 'port', enlarge: 0.5 },
  { match: 'tube_od', fit: 0.2 },
  { match: 'tube_bore' },
  { match: 'transition', enlarge: 0.5, outer: 'tube_bore' },
  { match: 'transition', enlarge: 0, outer: 'tube_od' },
];

const lean = fc.integer({ min: -40, max: 40 }).map((n) => n / 100);

describe.each(OPENINGS.map((opening) => [JSON.stringify(opening), opening] as const))('openings %s', (_, opening) => {
  test('of random ports at random tilts are sound, within the plate and cut no more than they may (seed 24)', () => {
    fc.assert(
      fc.property(randomHead, lean, lean, (head, x, y) => {
        const ports = head.ports.map((p) => ({ ...p, frame: frameFacing(p.frame.origin, [x, y, 1], [0, 1, 0]) }));
        const plan = { ...head, ports, flange: { ...head.flange, opening } };
        const part = flangesOf(plan)[0]!;
        validateOutline(part.region.outer, { leastSide: LEAST_SIDE });
        for (const m of openingMargins(part)) expect(m.distance).toBeGreaterThan(plan.flange.portEdge - 1e-6);
        for (const { cut, blend } of part.flows) {
          validateOutline(cut, { leastSide: opening.match === 'port' ? 1e-6 : LEAST_SIDE });
          if (blend === null) continue;
          expect(sharpestTurn(cut)).toBeLessThan(1e-6);
          expect(blend.volume).toBeGreaterThan(-1e-6);
          const faces = [blend.headContour, blend.outerContour];
          for (const p of flattenOutline(cut)) {
            for (const o of faces) expect(outlineContains(o, p) || pointToOutline(p, o).distance < 0.02).toBe(true);
          }
        }
        const [first, second] = part.cut.openings;
        if (second !== undefined) expect(outlineToOutline(first!.outline, second.outline).distance).toBeGreaterThan(0);
      }),
      { seed: 24, numRuns: 15 },
    );
  });
});
