import fc from 'fast-check';
import type { PlatePattern, PlatePlan, PlateThroat } from '../../src/params/plan.js';
import { BOLT_THREADS, clearanceHole } from '../../src/params/tables/bolt-holes.js';

const mm = (min: number, max: number): fc.Arbitrary<number> =>
  fc.integer({ min: Math.round(min * 100), max: Math.round(max * 100) }).map((n) => n / 100);

const bolts = fc
  .record({ thread: fc.constantFrom(...BOLT_THREADS), fit: fc.constantFrom('fine', 'medium', 'coarse') })
  .map(({ thread, fit }) => ({ thread, holeDiameter: clearanceHole(thread, fit as 'fine') }));

const bore: fc.Arbitrary<PlateThroat> = mm(30, 90).map((diameter) => ({ kind: 'round', diameter }));

const throat: fc.Arbitrary<PlateThroat> = fc.oneof(
  bore,
  fc.record({ kind: fc.constant('open' as const), width: mm(30, 110), height: mm(30, 80), cornerRadius: mm(0, 15) }),
  fc.record({
    kind: fc.constant('divided' as const),
    width: mm(70, 120),
    height: mm(30, 80),
    web: mm(3, 10),
    cornerRadius: mm(0, 15),
  }),
);

const clocking = fc.integer({ min: -180, max: 180 }).map((deg) => (deg * Math.PI) / 180);

/** Bolts anywhere from inside the opening to far outside it: outlines must be sound even where the checks will fail. */
const pattern: fc.Arbitrary<PlatePattern> = fc.oneof(
  fc.record({
    kind: fc.constant('rectangle_four_bolt' as const),
    bolts,
    boltX: mm(40, 180),
    boltY: mm(40, 150),
    throat,
  }),
  fc.record({
    kind: fc.constant('triangle_three_bolt' as const),
    bolts,
    count: fc.constant(3),
    boltCircle: mm(60, 160),
    clocking,
    throat: bore,
    od: fc.constant(null),
  }),
  fc.record({ kind: fc.constant('oval_two_bolt' as const), bolts, boltSpacing: mm(60, 160), clocking, throat: bore }),
  fc.record({
    kind: fc.constant('round' as const),
    bolts,
    count: fc.integer({ min: 2, max: 16 }),
    boltCircle: mm(60, 160),
    clocking,
    throat: bore,
    od: fc.option(mm(120, 260)),
  }),
);

/** Bolted plates of every pattern, with or without a waist. */
export const randomPlate: fc.Arbitrary<PlatePlan> = fc
  .record({ pattern, edge: mm(4, 14), throatEdge: mm(4, 14), fillet: fc.option(mm(4, 40)), thickness: mm(5, 16) })
  .map((p) => plateWith(p.pattern, p));

/** A plate of a pattern with plausible figures for the rest. */
export const plateWith = (own: PlatePattern, change: Partial<PlatePlan> = {}): PlatePlan => ({
  name: 'outlet',
  feeds: [],
  count: 1,
  thickness: 10,
  material: 'mild steel',
  edge: 8,
  throatEdge: 8,
  web: 5,
  fillet: null,
  gasket: true,
  ...change,
  pattern: own,
});
