import { describe, expect, test } from 'vitest';
import { readPlan } from '../../src/params/read-plan.js';
import { BASE, planFrom, problemAfter, problemsOf, swap } from './base-plan.js';

const BENDS = '    - { clr: 63.5 }\n';
const TUBE = '  od: 42.4\n  wall: 1.6\n';
const bends = (entry: string): string => swap(BASE, BENDS, `    - ${entry}\n`);
const PIPE = swap(BASE, TUBE, '  size: NPS 1 1/2 10S\n');
const PRICED = `{ clr: 63.5, price: 12 }`;
const withStock = (text: string, stock: string): string => `${text}stock: ${stock}\n`;

describe('bent stock', () => {
  test('has a name, a price and how many there are', () => {
    const [bend] = planFrom(bends('{ clr: 63.5, leg: 60, short_leg: 20, name: shop J, price: 12.5, available: 3 }'))
      .tube.bends;
    expect(bend).toEqual({
      clr: 63.5,
      maxAngle: Math.PI,
      leg: 60,
      shortLeg: 20,
      name: 'shop J',
      price: 12.5,
      available: 3,
    });
  });

  test('may be an elbow of the table: its radius, its angle and what a 45 degree elbow has beyond it', () => {
    const elbow = (fields: string) =>
      planFrom(swap(PIPE, BENDS, `    - { elbow: { nps: 1 1/2, ${fields} } }\n`)).tube.bends[0]!;
    expect(elbow('radius: long, angle: 90')).toEqual({
      clr: 57.2,
      maxAngle: Math.PI / 2,
      leg: 0,
      shortLeg: 0,
      elbow: 'NPS 1 1/2 elbow, 90 deg, long radius',
    });
    // ASME B16.9: B 28.4 mm; 57.2 tan 22.5 deg = 23.693
    const half = elbow('radius: long, angle: 45');
    expect(half.leg).toBeCloseTo(28.4 - 23.693, 3);
    expect(half.leg).toBe(half.shortLeg);
    // tighter than least_clr allows a drawn bend: 38.1 of 48.3
    expect(elbow('radius: short, angle: 180')).toMatchObject({ clr: 38.1, maxAngle: Math.PI, leg: 0 });
  });

  test.each([
    [
      '{ elbow: { nps: 1 1/2, radius: short, angle: 45 } }',
      '25:16 tube.bends.0.elbow: ASME B16.9 has no 45 degree elbow of short radius',
    ],
    [
      '{ elbow: { nps: 1 1/2, radius: long, angle: 60 } }',
      'tube.bends.0.elbow.angle: expected 45, 90 or 180, found 60',
    ],
    [
      '{ elbow: { nps: 4, radius: long, angle: 90 } }',
      'tube.bends.0.elbow.nps: expected 1, 1 1/4, 1 1/2, 2, 2 1/2 or 3, found "4"',
    ],
    [
      '{ elbow: { nps: 2, radius: long, angle: 90 } }',
      "tube.bends.0.elbow.nps: expected an elbow of the tube's od (42.4 mm); this one is of pipe of 60.3 mm",
    ],
    [
      '{ elbow: { nps: 1 1/4, radius: long, angle: 90 } }',
      "tube.bends.0.elbow.nps: expected an elbow of the tube's od (42.4 mm); this one is of pipe of 42.2 mm",
    ],
    [
      '{ clr: 50, elbow: { nps: 2, radius: long, angle: 90 } }',
      'tube.bends.0.clr: the table has the sizes of an elbow',
    ],
    ['{ leg: 50 }', 'tube.bends.0.clr: missing; expected a length such as 44.45 or "1.75 in", or an elbow'],
    [
      '{ clr: 63.5, leg: 20, short_leg: 30 }',
      'tube.bends.0.short_leg: expected a short leg no longer than leg (20 mm), found 30 mm',
    ],
    ['{ clr: 63.5, price: -1 }', 'tube.bends.0.price: expected a number from 0 to 1000000, found -1'],
    ['{ clr: 63.5, available: 1.5 }', 'tube.bends.0.available: expected a whole number from 0 to 10000, found 1.5'],
    ['{ use: shop bend }', 'tube.bends.0.use: no entry of stock.tables.bends is named "shop bend"'],
  ])('%s is refused', (entry, message) => {
    const found = problemsOf(bends(entry));
    expect(found.map((p) => `${p.line}:${p.column} ${p.path}: ${p.message}`).join('\n')).toContain(message);
    expect(found[0]!.line).toBe(25);
  });
});

describe('sizes of tube', () => {
  test.each([
    ['NPS 1 1/2 10S', 48.3, 2.77],
    ['NPS 1 1/4 5s', 42.2, 1.65],
    ['ISO 42.4 x 2', 42.4, 2],
    ['ISO 38x1.5', 38, 1.5],
    ['1.75 in x 0.065 in', 44.45, 1.651],
  ])('%s', (size, od, wall) => {
    const { tube } = planFrom(swap(BASE, TUBE, `  size: ${size}\n`));
    expect(tube.od).toBeCloseTo(od, 9);
    expect(tube.wall).toBeCloseTo(wall, 9);
  });

  test('a name without a wall takes the one given; the same size twice is no fault', () => {
    expect(planFrom(swap(BASE, TUBE, '  size: ISO 42.4\n  wall: 1.6\n')).tube).toMatchObject({ od: 42.4, wall: 1.6 });
    expect(planFrom(swap(BASE, TUBE, '  size: NPS 1 1/2 10S\n  od: 48.26\n')).tube).toMatchObject({
      od: 48.3,
      wall: 2.77,
    });
  });

  test.each([
    [
      'size: NPS 1 1/2 10S\n  od: 48\n',
      'plan.yaml:22:7 tube.od: expected 48.3 mm, as size says, found 48 mm: leave od away or mend one of them',
    ],
    [
      'size: ISO 42.4 x 2\n  wall: 1.6\n',
      'plan.yaml:22:9 tube.wall: expected 2 mm, as size says, found 1.6 mm: leave wall away or mend one of them',
    ],
    ['size: ISO 42.4\n', 'plan.yaml:20:1 tube.wall: missing; expected a length'],
    [
      'size: NPS 4 10S\n',
      'plan.yaml:21:9 tube.size: expected one of NPS 1, 1 1/4, 1 1/2, 2, 2 1/2, 3, or a name of stock.tables.sizes, found "NPS 4 10S"',
    ],
    ['size: NPS 2 80S\n', 'plan.yaml:21:9 tube.size: expected one of the schedules 5S, 10S, 40S'],
    // ISO 33.7 and NPS 33.4 are two sizes
    ['size: ISO 33.4 x 2\n', 'plan.yaml:21:9 tube.size: expected one of the diameters of ISO 1127'],
    ['size: ISO 42.4 x 30\n', 'plan.yaml:21:9 tube.size: expected a wall over 0 and under half the tube'],
    [
      'size: thin\n',
      'plan.yaml:21:9 tube.size: expected a size such as "NPS 1 1/2 10S" or "ISO 42.4 x 2", or a name of stock.tables.sizes, found "thin"',
    ],
    ['size: 42\n', 'plan.yaml:21:9 tube.size: expected a size such as'],
  ])('%j is refused', (fields, message) => {
    expect(problemAfter(TUBE, `  ${fields}`)).toContain(message);
  });

  test('steps and secondaries take them too', () => {
    const step = '  steps: [{ at: 200, size: ISO 44.5 x 1.5, bends: [{ clr: 67.5 }], sticks: [{ length: 1000 }] }]\n';
    const plan = planFrom(swap(BASE, BENDS, BENDS + step));
    expect(plan.tube.steps[0]).toMatchObject({ od: 44.5, wall: 1.5, sticks: [{ length: 1000 }] });
  });
});

describe('the stock section', () => {
  test('has defaults that shops keep', () => {
    const plan = planFrom(BASE);
    expect(plan.stock).toEqual({
      kerf: 2,
      grip: 25,
      leastOffcut: 150,
      minimise: 'pieces',
      currency: null,
      density: null,
    });
    expect(plan.tube.sticks).toEqual([{ length: 2000 }]);
  });

  test('names own sizes and bends once, for use under the tubes', () => {
    const text = swap(
      swap(BASE, TUBE, '  size: thin\n'),
      BENDS,
      '    - { use: shop bend, price: 8 }\n    - { clr: 90 }\n',
    );
    const plan = planFrom(
      withStock(
        text,
        '{ tables: { sizes: [{ name: thin, od: 41, wall: 1.2 }], bends: [{ name: shop bend, clr: 61.5, max_angle: 90, leg: 70, price: 9 }] } }',
      ),
    );
    expect(plan.tube).toMatchObject({ od: 41, wall: 1.2 });
    expect(plan.tube.bends[0]).toMatchObject({
      name: 'shop bend',
      clr: 61.5,
      maxAngle: Math.PI / 2,
      leg: 70,
      price: 8,
    });
    expect(plan.tube.bends[1]).toMatchObject({ clr: 90 });
  });

  test.each([
    ['{ kerf: 20 }', 'stock.kerf: expected a length from 0 mm to 10 mm, found 20 mm'],
    ['{ grip: -1 }', 'stock.grip: expected a length from 0 mm to 500 mm'],
    ['{ minimise: waste }', 'stock.minimise: expected pieces or price, found "waste"'],
    ['{ density: 7.85 }', 'stock.density: expected a number from 500 to 25000, found 7.85'],
    ['{ tables: { bends: [{ clr: 60 }] } }', 'stock.tables.bends.0.name: missing; expected a name'],
    [
      '{ tables: { sizes: [{ name: a, od: 40, wall: 1 }, { name: a, od: 41, wall: 1 }] } }',
      'stock.tables.sizes.1.name: the name "a" is taken',
    ],
    ['{ krf: 2 }', 'stock.krf: unknown field; did you mean "kerf"?'],
  ])('%s is refused', (stock, message) => {
    const read = readPlan(withStock(BASE, stock), 'plan.yaml');
    expect(read.ok ? '' : read.text).toContain(`plan.yaml:32:`);
    expect(read.ok ? '' : read.text).toContain(message);
  });

  test('the cheapest stock needs every price', () => {
    const unpriced = withStock(BASE, '{ minimise: price }');
    expect(problemsOf(unpriced).map((p) => p.path)).toEqual(['tube.sticks.0.price', 'tube.bends.0.price']);
    expect(problemsOf(unpriced)[1]!.line).toBe(25);
    const half = withStock(bends(PRICED), '{ minimise: price }');
    expect(problemsOf(half).map((p) => p.path)).toEqual(['tube.sticks.0.price']);
    const priced = swap(bends(PRICED), '  bends:', '  sticks: [{ length: 1000, price: 0 }]\n  bends:');
    expect(planFrom(withStock(priced, '{ minimise: price }')).stock.minimise).toBe('price');
  });

  test('takes lengths with their own unit', () => {
    const text = swap(BASE, BENDS, `${BENDS}  sticks: [{ length: 60 in }]\n`);
    const plan = planFrom(withStock(text, '{ kerf: 1/8 in, grip: 1 in, least_offcut: 4 in }'));
    expect(plan.stock).toMatchObject({ kerf: 3.175, grip: 25.4, leastOffcut: 101.6 });
    expect(plan.tube.sticks).toEqual([{ length: 1524 }]);
  });
});
