import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { outlineContains } from '../../../src/geometry/outline/contains.js';
import { outlineArea, outlineBounds } from '../../../src/geometry/outline/measure.js';
import { sharpestTurn } from '../../../src/geometry/outline/turn.js';
import { validateOutline } from '../../../src/geometry/outline/valid.js';
import { edgeMargins, flatWebs } from '../../../src/parts/plates/flat-margins.js';
import { flatArea, flatCut } from '../../../src/parts/plates/flat-part.js';
import { boltPoints, plateRegion, sleeveLength } from '../../../src/parts/plates/plate-region.js';
import { plateWith, randomPlate } from '../../support/plate-arbitrary.js';

const M10 = { thread: 'M10', holeDiameter: 11 };

test('random plates of every pattern: sound, tangent, with the metal that was asked for (seed 51)', () => {
  fc.assert(
    fc.property(randomPlate, (plate) => {
      const region = plateRegion(plate, 1.5);
      const { outer, openings, holes } = region;
      for (const o of [outer, ...openings.map((x) => x.outline), ...holes.map((x) => x.outline)]) validateOutline(o);
      const { pattern } = plate;
      const free = pattern.kind === 'round' && pattern.od !== null;
      if (!free) {
        for (const m of edgeMargins(region).openings) expect(m.distance).toBeGreaterThan(plate.throatEdge - 1e-6);
        for (const m of edgeMargins(region).holes) expect(m.distance).toBeGreaterThan(plate.edge - 1e-6);
        for (const h of holes) expect(outlineContains(outer, h.at)).toBe(true);
      }
      expect(sharpestTurn(outer)).toBeLessThan(1e-6);
      expect(flatCut(region, 0.6).outer.vertices.length).toBeGreaterThan(1);
    }),
    { seed: 51, numRuns: 250 },
  );
});

describe('closed forms', () => {
  test('four equal bosses far outside a small throat: a rectangle with round corners', () => {
    const plate = plateWith({
      kind: 'rectangle_four_bolt',
      bolts: M10,
      boltX: 100,
      boltY: 70,
      throat: { kind: 'open', width: 60, height: 40, cornerRadius: 6 },
    });
    const region = plateRegion(plate, 1.5);
    const r = 11 / 2 + 8;
    expect(outlineArea(region.outer)).toBeCloseTo(100 * 70 + 2 * r * 170 + Math.PI * r * r, 6);
    const opening = 60 * 40 - (4 - Math.PI) * 36;
    expect(flatArea(region)).toBeCloseTo(outlineArea(region.outer) - opening - Math.PI * 11 ** 2, 6);
  });

  test('an oval with two bolts: the belt round three discs', () => {
    const plate = plateWith({
      kind: 'oval_two_bolt',
      bolts: M10,
      boltSpacing: 100,
      clocking: 0,
      throat: { kind: 'round', diameter: 50 },
    });
    const { outer } = plateRegion(plate, 1.5);
    // Two discs of radii a > b at distance d: half a belt is d' = sqrt(d^2 - (a - b)^2) of tangent, arcs turn by acos((a - b) / d).
    const [a, b, d] = [25 + 8, 5.5 + 8, 50];
    const tangent = Math.sqrt(d * d - (a - b) ** 2);
    const half = Math.acos((a - b) / d);
    const area = 4 * ((tangent * (a + b)) / 2 + (b * b * half) / 2 + (a * a * (Math.PI / 2 - half)) / 2);
    expect(outlineArea(outer)).toBeCloseTo(area, 6);
  });

  test('a round plate is as large as bolts and bore ask, or as it is told', () => {
    const round = (boltCircle: number, diameter: number, od: number | null) =>
      outlineBounds(
        plateRegion(
          plateWith({
            kind: 'round',
            bolts: M10,
            count: 6,
            boltCircle,
            clocking: 0,
            throat: { kind: 'round', diameter },
            od,
          }),
          1.5,
        ).outer,
      ).to[0] * 2;
    expect(round(100, 50, null)).toBeCloseTo(100 + 11 + 16, 9);
    expect(round(60, 90, null)).toBeCloseTo(90 + 16, 9);
    expect(round(100, 50, 150)).toBeCloseTo(150, 9);
  });

  test('a divided throat is two openings with the web between them', () => {
    const region = plateRegion(
      plateWith({
        kind: 'rectangle_four_bolt',
        bolts: M10,
        boltX: 120,
        boltY: 80,
        throat: { kind: 'divided', width: 90, height: 44, web: 6, cornerRadius: 8 },
      }),
      1.5,
    );
    expect(region.openings.map((o) => o.place)).toEqual(['left opening', 'right opening']);
    for (const o of region.openings) expect(outlineArea(o.outline)).toBeCloseTo(42 * 44 - (4 - Math.PI) * 64, 6);
    expect(flatWebs(region).find((w) => w.against === 'right opening')!.distance).toBeCloseTo(6, 9);
  });

  test('a sleeve is rolled from once round the middle of its wall', () => {
    expect(sleeveLength({ tubeOd: 50, fit: 0.2, wall: 2 })).toBeCloseTo(Math.PI * 52.4, 9);
    const { outer, openings } = plateRegion(
      plateWith({ kind: 'slip_joint', tubeOd: 50, wall: 2, overlap: 40, fit: 0.2 }),
      1.5,
    );
    expect(outlineArea(outer)).toBeCloseTo(Math.PI * 52.4 * 40, 6);
    expect(openings).toEqual([]);
  });

  test('the ring of a V-band joint', () => {
    const region = plateRegion(plateWith({ kind: 'vband_bore', bore: 64, od: 84 }), 1.5);
    expect(flatArea(region)).toBeCloseTo((Math.PI * (84 ** 2 - 64 ** 2)) / 4, 6);
  });
});

test('the first bolt of a circle stands straight up, then they go round counter-clockwise', () => {
  const points = boltPoints({
    kind: 'round',
    bolts: M10,
    count: 4,
    boltCircle: 100,
    clocking: 0,
    throat: { kind: 'round', diameter: 50 },
    od: null,
  });
  expect(points).toEqual(
    [
      [0, 50],
      [-50, 0],
      [0, -50],
      [50, 0],
    ].map((p) => p.map((v) => expect.closeTo(v, 9))),
  );
});

// ISO 273: M10 medium 11 mm; below 1.5 x thickness it is drilled (a vendor's figure, common practice).
test.each([
  [7, false],
  [7.4, true],
])('an 11 mm hole in %d mm plate: drilled %s', (thickness, drill) => {
  const pattern = {
    kind: 'oval_two_bolt',
    bolts: M10,
    boltSpacing: 90,
    clocking: 0,
    throat: { kind: 'round', diameter: 50 },
  } as const;
  expect(plateRegion(plateWith(pattern, { thickness }), 1.5).holes.every((h) => h.drill === drill)).toBe(true);
});
