import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Shadow, shadowOf } from '../../../src/geometry/mesh/shadow.js';
import type { Vec2 } from '../../../src/geometry/vec2.js';
import { flangesOf } from '../../../src/parts/flange/flange.js';
import { mockUpOf } from '../../../src/parts/jigs/jigs.js';
import { type Packing, packed } from '../../../src/parts/print-plates/packing.js';
import { encloses, gapBetween, lying } from '../../support/plate-gaps.js';
import { twin } from '../../support/twin.js';

const polygon = (points: readonly Vec2[]): Shadow => ({
  edges: Float64Array.from(points.flatMap((p, i) => [...p, ...points[(i + 1) % points.length]!])),
});
const rectangle = (w: number, h: number): Shadow =>
  polygon([
    [0, 0],
    [w, 0],
    [w, h],
    [0, h],
  ]);
const disc = (r: number): Shadow =>
  polygon(
    Array.from({ length: 48 }, (_, i): Vec2 => [r * Math.cos((i * Math.PI) / 24), r * Math.sin((i * Math.PI) / 24)]),
  );

/** Everything a packing must be, measured without its raster. */
function expectSound(shadows: readonly Shadow[], bed: Vec2, gap: number, packing: Packing): void {
  const { laid, plates, bound, tooBig } = packing;
  expect([...laid.map((l) => l.item), ...tooBig].sort((a, b) => a - b)).toEqual(shadows.map((_, i) => i));
  expect(plates).toBeGreaterThanOrEqual(bound);
  const there = laid.map((l) => lying(shadows[l.item]!, l.turn, l.by));
  for (const { low, high } of there) {
    for (const k of [0, 1] as const) {
      expect(low[k]).toBeGreaterThanOrEqual(-1e-6);
      expect(high[k]).toBeLessThanOrEqual(bed[k] + 1e-6);
    }
  }
  laid.forEach((a, i) => {
    expect(a.plate).toBeLessThan(plates);
    for (let j = 0; j < i; j++) {
      if (laid[j]!.plate !== a.plate) continue;
      expect(gapBetween(there[i]!, there[j]!, gap), `${a.item} and ${laid[j]!.item}`).toBeGreaterThanOrEqual(
        gap - 1e-6,
      );
      expect(encloses(there[i]!, there[j]!) || encloses(there[j]!, there[i]!)).toBe(false);
    }
  });
}

const BEDS: readonly Vec2[] = [
  [210.3, 199.7],
  [33.4, 57.9],
  [410, 300.5],
];

describe('packing build plates', () => {
  const side = fc.double({ min: 2, max: 130, noNaN: true });
  const shape = fc.oneof(
    fc.tuple(side, side).map(([w, h]) => rectangle(w, h)),
    side.map((d) => disc(d / 2)),
  );
  const bed = fc.tuple(fc.double({ min: 60, max: 260, noNaN: true }), fc.double({ min: 60, max: 260, noNaN: true }));

  it('keeps random rectangles and discs apart, on the bed, all of them, the same way each time', () => {
    fc.assert(
      fc.property(
        fc.array(shape, { maxLength: 14 }),
        bed,
        fc.double({ min: 0.5, max: 12, noNaN: true }),
        (shapes, b, gap) => {
          const packing = packed(shapes, b, gap);
          expectSound(shapes, b, gap, packing);
          expect(packed(shapes, b, gap)).toEqual(packing);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('fills a bed that equal squares fill, and reports the bound met', () => {
    const squares = Array.from({ length: 16 }, () => rectangle(46, 46));
    // 4 x 46 + 3 x 5 = 199 of 200, in whole cells of a millimetre
    const packing = packed(squares, [200, 200], 5);
    expectSound(squares, [200, 200], 5, packing);
    expect([packing.plates, packing.bound]).toEqual([1, 1]);
  });

  it('nests bent parts into each other where their boxes would not fit', () => {
    const angle = polygon([
      [0, 0],
      [100, 0],
      [100, 20],
      [20, 20],
      [20, 100],
      [0, 100],
    ]);
    const two = packed([angle, angle], [130, 130], 4);
    expectSound([angle, angle], [130, 130], 4, two);
    expect(two.plates).toBe(1);
  });

  it('lists what fits no bed apart, and turns what fits turned', () => {
    const packing = packed([rectangle(150, 20), rectangle(20, 150), rectangle(300, 10)], [160, 60], 5);
    expect(packing.tooBig).toEqual([2]);
    expect(packing.plates).toBe(1);
    expect(packed([], [100, 100], 5)).toMatchObject({ laid: [], plates: 0, bound: 0 });
  });

  it('takes a part as large as the bed, whatever the bed measures', () => {
    for (const b of BEDS) {
      const packing = packed([rectangle(b[0], b[1])], b, 5);
      expectSound([rectangle(b[0], b[1])], b, 5, packing);
      expect(packing.plates).toBe(1);
    }
  });

  it('lays out a whole mock-up', () => {
    const { plan, primaries } = twin();
    const jigs = mockUpOf({ plan, primaries, secondaries: [], flanges: flangesOf(plan) }).parts;
    const shadows = jigs.map((j) => shadowOf(j.mesh));
    const packing = packed(shadows, [210, 210], 5);
    expect(packing.tooBig).toEqual([]);
    expectSound(shadows, [210, 210], 5, packing);
  });
});
