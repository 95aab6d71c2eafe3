import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { circleOutline } from '../../../src/geometry/outline/make.js';
import { outlineArea, outlineBounds } from '../../../src/geometry/outline/measure.js';
import { offsetOutline } from '../../../src/geometry/outline/offset.js';
import { flangesOf } from '../../../src/parts/flange/flange.js';
import type { FlatPart } from '../../../src/parts/plates/flat-part.js';
import { flatPartsOf } from '../../../src/parts/plates/flat-parts.js';
import { plateRegion } from '../../../src/parts/plates/plate-region.js';
import { layOut, onSheet, pointOnSheet } from '../../../src/parts/plates/sheet.js';
import { BASE, planFrom } from '../../params/base-plan.js';
import { PLATES } from '../../params/plate-plan.js';
import { clipperUnionArea } from '../../support/clipper.js';
import { randomPlate } from '../../support/plate-arbitrary.js';

const plan = planFrom(`${BASE}${PLATES}gaskets: {}\n`);
const parts = flatPartsOf(plan, flangesOf(plan)).all;

test('random plates on random sheets: inside the margins, apart by the gap, none lost (seed 54)', async () => {
  const cases = fc.sample(
    fc.record({
      plates: fc.array(randomPlate, { minLength: 1, maxLength: 6 }),
      width: fc.integer({ min: 150, max: 1200 }),
      height: fc.integer({ min: 150, max: 700 }),
      gap: fc.integer({ min: 1, max: 15 }),
      margin: fc.integer({ min: 0, max: 20 }),
      count: fc.integer({ min: 1, max: 4 }),
    }),
    { seed: 54, numRuns: 25 },
  );
  for (const { plates, width, height, gap, margin, count } of cases) {
    const flat = plates.map((plate, i): FlatPart => {
      const region = plateRegion(plate, 1.5);
      return { ...parts[1]!, name: `plate ${i}`, thickness: 10, count: 1, region, cut: region };
    });
    const { sheets, tooBig } = layOut(flat, { size: [width, height], gap, margin, count });
    expect(sheets.reduce((n, s) => n + s.pieces.length, 0) + tooBig.length * count).toBe(flat.length * count);
    for (const sheet of sheets) {
      const placed = sheet.pieces.map((p) => onSheet(p, p.part.cut.outer));
      for (const o of placed) {
        const { from, to } = outlineBounds(o);
        expect(Math.min(...from)).toBeGreaterThan(margin - 1e-6);
        expect(to[0]).toBeLessThan(width - margin + 1e-6);
        expect(to[1]).toBeLessThan(height - margin + 1e-6);
      }
      // Grown by half the gap they still do not overlap: Clipper finds the union as large as all together.
      const grown = placed.map((o) => offsetOutline(o, gap / 2 - 1e-3));
      const all = grown.reduce((sum, o) => sum + outlineArea(o), 0);
      expect(Math.abs((await clipperUnionArea(grown)) / all - 1)).toBeLessThan(1e-5);
    }
  }
});

describe('the parts of a plan', () => {
  test('each stock has sheets of its own, with as many pieces as asked', () => {
    const { sheets, tooBig } = layOut(parts, { size: [1000, 600], gap: 8, margin: 10, count: 3 });
    expect(tooBig).toEqual([]);
    expect(new Set(sheets.map((s) => `${s.thickness} ${s.material}`)).size).toBe(4);
    const names = sheets.flatMap((s) => s.pieces.map((p) => p.part.name));
    expect(names.filter((n) => n === 'downpipe')).toHaveLength(6);
    expect(names.filter((n) => n === 'outlet')).toHaveLength(3);
  });

  test('one that fits only turned is turned', () => {
    const flange = parts.find((p) => p.kind === 'flange')!;
    const { sheets } = layOut([flange], {
      size: [flange.size[1] + 4, flange.size[0] + 4],
      gap: 5,
      margin: 2,
      count: 1,
    });
    expect(sheets[0]!.pieces[0]!.turned).toBe(true);
  });

  test('one too large is told and left out', () => {
    const { sheets, tooBig } = layOut(parts, { size: [150, 150], gap: 5, margin: 5, count: 1 });
    expect(tooBig.map((p) => p.name)).toContain('flange');
    expect(sheets.flatMap((s) => s.pieces.map((p) => p.part.name))).not.toContain('flange');
  });
});

test('a point goes where its outline goes', () => {
  const piece = { part: parts[0]!, turned: true, by: [100, 50] as const };
  const { from, to } = outlineBounds(onSheet(piece, circleOutline([20, 7], 10)));
  const [x, y] = pointOnSheet(piece, [20, 7]);
  expect([(from[0] + to[0]) / 2, (from[1] + to[1]) / 2]).toEqual([expect.closeTo(x, 9), expect.closeTo(y, 9)]);
});
