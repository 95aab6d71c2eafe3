import fc from 'fast-check';
import { circleOutline, rectangleOutline } from '../../src/geometry/outline/make.js';
import type { Outline } from '../../src/geometry/outline/outline.js';
import type { FlangePlan, Plan } from '../../src/params/plan.js';
import { boltAt, type PortPlace, planWith } from './plan-fixture.js';

const mm = (min: number, max: number): fc.Arbitrary<number> =>
  fc.integer({ min: Math.round(min * 100), max: Math.round(max * 100) }).map((n) => n / 100);

const dShape = (width: number, height: number): Outline => ({
  vertices: [
    { x: -width / 2, y: -height / 2, bulge: 0 },
    { x: width / 2, y: -height / 2, bulge: 0 },
    { x: width / 2, y: height / 2, bulge: 0.5 },
    { x: -width / 2, y: height / 2, bulge: 0 },
  ],
});

const portOutline: fc.Arbitrary<Outline> = fc
  .record({
    shape: fc.constantFrom('round', 'oval', 'rectangle', 'rounded', 'd'),
    width: mm(28, 55),
    height: mm(24, 45),
  })
  .map(({ shape, width, height }) => {
    const least = Math.min(width, height);
    if (shape === 'round') return circleOutline([0, 0], least);
    if (shape === 'd') return dShape(width, height);
    const radius = { oval: least / 2, rectangle: 0, rounded: least / 5 }[shape as 'oval' | 'rectangle' | 'rounded'];
    return rectangleOutline(width, height, radius);
  });

/** Heads of 1 to 8 ports in a wavy row, up to three bolts a port anywhere round it, with any edge, fillet and kerf a shop would ask for. */
export const randomHead: fc.Arbitrary<Plan> = fc
  .record({
    outline: portOutline,
    ports: fc.array(fc.record({ pitch: mm(70, 120), y: mm(-6, 6), level: fc.boolean() }), {
      minLength: 1,
      maxLength: 8,
    }),
    bolts: fc.array(fc.record({ port: fc.nat(7), angle: fc.integer({ min: 0, max: 359 }), reach: mm(30, 60) }), {
      maxLength: 16,
    }),
    flange: fc.record<Pick<FlangePlan, 'portEdge' | 'boltEdge' | 'fillet' | 'opening' | 'thickness' | 'kerf'>>({
      portEdge: mm(5, 15),
      boltEdge: mm(5, 14),
      fillet: mm(2, 20),
      opening: fc.constantFrom(0, 0.5, 1).map((enlarge) => ({ match: 'port', enlarge }) as const),
      thickness: fc.constantFrom(5, 6, 8, 10, 12),
      kerf: fc.record({ width: fc.constantFrom(0.2, 1.2, 1.6), compensate: fc.boolean() }),
    }),
  })
  .map(({ outline, ports, bolts, flange }) => {
    let x = 0;
    const places = ports.map(({ pitch, y, level }): PortPlace => {
      x += pitch;
      return { at: [x - ports[0]!.pitch, level ? 0 : y], outline };
    });
    const holes = bolts.map(({ port, angle, reach }) => {
      const { at } = places[port % places.length]!;
      const a = (angle * Math.PI) / 180;
      return boltAt([at[0] + reach * Math.cos(a), at[1] + reach * Math.sin(a)]);
    });
    return planWith(places, holes, flange);
  });
