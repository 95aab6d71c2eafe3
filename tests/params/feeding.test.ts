import { describe, expect, test } from 'vitest';
import { BASE, planFrom, problemsOf, swap } from './base-plan.js';

const OUTLET = 'outlet: { od: 50, cone_length: 100 }';
const at = (x: number, y: number) => `at: [${x}, ${y}, 150], direction: [0, -1, 0], ${OUTLET}`;
const SECONDARIES = 'secondaries: { length: 300, od: 50, wall: 1.5, bends: [{ clr: 75 }] }\n';
const A = `  - { name: a, cylinders: [1], ${at(0, -300)} }\n`;
const B = `  - { name: b, cylinders: [2], ${at(100, -300)} }\n`;
const C = `  - { name: c, from: [a, b], ${at(60, -700)} }\n`;

/** The base plan with a list of collectors and what follows it. */
const withCollectors = (list: string, more = SECONDARIES) =>
  swap(
    BASE,
    'collector:\n  at: [60, -300, 150]\n  direction: [0, -1, 0]\n  outlet: { od: 50, cone_length: 100 }\n',
    `collectors:\n${list}${more}`,
  );

const faults = (text: string) => problemsOf(text).map((p) => `${p.path}: ${p.message}`);

describe('collectors fed by others', () => {
  test('come with the names that feed them and the secondaries between', () => {
    const plan = planFrom(withCollectors(A + B + C));
    expect(plan.collectors.map((c) => [c.name, c.cylinders, c.from])).toEqual([
      ['a', [1], []],
      ['b', [2], []],
      ['c', [], ['a', 'b']],
    ]);
    expect(plan.collectors.map((c) => c.mergeHalfAngle > 0)).toEqual([false, false, true]);
    // The outlet a secondary leaves from, and the one secondaries join into, have the wall of the secondaries.
    expect(plan.collectors.map((c) => c.outlet.wall)).toEqual([1.5, 1.5, 1.5]);
    expect(plan.secondaries).toEqual({
      length: 300,
      tolerance: 1,
      od: 50,
      wall: 1.5,
      bends: [{ clr: 75, maxAngle: Math.PI, leg: 0, shortLeg: 0 }],
      sticks: [{ length: 2000 }],
    });
  });

  test('may stand before those that feed them', () => {
    expect(planFrom(withCollectors(C + B + A)).collectors[0]!.from).toEqual(['a', 'b']);
  });

  test('an order by names counts from 1 as from lists them', () => {
    const order = (names: string) => planFrom(withCollectors(A + B + C.replace('from:', `order: ${names}, from:`)));
    expect(order('[b, a]').collectors[2]!.order).toEqual({ kind: 'given', cylinders: [2, 1] });
    expect(order('[a, b]').collectors[2]!.order).toEqual({ kind: 'given', cylinders: [1, 2] });
    expect(order('free').collectors[2]!.order).toEqual({ kind: 'free' });
  });

  test.each([
    ['from: [a, x]', 'from.1: no collector is named "x"; the others are "a" and "b"'],
    ['from: [a, c]', 'from.1: a collector cannot feed itself'],
    ['from: [a, a]', 'from.1: the collector "a" is listed twice'],
    ['from: []', 'from: expected at least 1 entry, found []'],
    ['from: a', 'from: expected a list such as [1, 2, 3], found "a"'],
    ['from: [1]', 'from.0: expected a name such as "front": text of 1 to 80 characters, found 1'],
    [
      'from: [a, b], cylinders: [1]',
      'from: a collector takes cylinders or is fed from others, not both; leave one out',
    ],
    [
      'order: firing, from: [a, b]',
      'order: a collector fed by others has no firing order: take free, or a list of their names',
    ],
    ['order: [a], from: [a, b]', 'order: expected each collector of from once ("a", "b"), found ["a"]'],
    ['order: [1, 2], from: [a, b]', 'order: expected each collector of from once ("a", "b"), found [1,2]'],
    ['order: [1.5], from: [a, b]', 'order.0: expected a cylinder from 1 to 16, or the name of a collector, found 1.5'],
    [
      'merge_half_angle: 0, from: [a, b]',
      'merge_half_angle: 2 inlets at 0 degrees never merge: expected an angle over 0 and up to 30 degrees',
    ],
  ])('%j is refused', (fields, message) => {
    const text = withCollectors(A + B + C.replace('from: [a, b]', fields));
    expect(faults(text)).toEqual([`collectors.2.${message}`]);
    expect(problemsOf(text)[0]!.line).toBe(29);
  });

  test('takes cylinders or is fed, one of the two', () => {
    const text = withCollectors(A + B + C.replace('from: [a, b], ', ''), '');
    expect(problemsOf(text)).toEqual([
      {
        line: 29,
        column: 5,
        path: 'collectors.2.cylinders',
        message: 'missing; list the cylinders that join here, or under from the collectors that feed it',
      },
    ]);
  });

  test('each feeds one other', () => {
    const d = `  - { name: d, from: [b], ${at(200, -700)} }\n`;
    expect(faults(withCollectors(A + B + C + d))).toEqual(['collectors.3.from.0: the collector "b" feeds "c" already']);
  });

  test('two in a row are the most, and no circle', () => {
    const d = `  - { name: d, from: [c], ${at(60, -990)} }\n`;
    expect(faults(withCollectors(A + B + C + d))).toEqual([
      'collectors.3.from.0: "c" is itself fed by others: two collectors in a row are the most, as in a 4-2-1',
    ]);
    const both = A.replace('[1]', '[1, 2]');
    const loop = `  - { name: b, from: [c], ${at(0, -500)} }\n  - { name: c, from: [b], ${at(60, -700)} }\n`;
    expect(faults(withCollectors(both + loop))).toEqual([
      'collectors.1.from.0: the gas would run in a circle: "c" is itself fed by way of "b"',
      'collectors.2.from.0: the gas would run in a circle: "b" is itself fed by way of "c"',
    ]);
  });

  test('a port left out is told at the last collector that takes cylinders', () => {
    expect(faults(withCollectors(A + B.replace('[2]', '[1]') + C))).toContain(
      'collectors.1.cylinders: no collector takes cylinder 2; every port needs one',
    );
  });

  test('the one collector of a plan is fed by none', () => {
    expect(faults(swap(BASE, 'direction: [0, -1, 0]', 'direction: [0, -1, 0]\n  from: [a]'))[0]).toMatch(
      /^collector.from: unknown field; this section has name, cylinders, at/,
    );
  });
});

describe('secondaries', () => {
  test('are needed exactly when a collector is fed by others', () => {
    expect(problemsOf(withCollectors(A + B + C, ''))).toEqual([
      {
        line: 1,
        column: 1,
        path: 'secondaries',
        message:
          'missing; "c" is fed by other collectors, so describe the tubes between under secondaries: length, od, wall and bends',
      },
    ]);
    expect(problemsOf(withCollectors(A + B))).toEqual([
      {
        line: 29,
        column: 1,
        path: 'secondaries',
        message: 'no collector is fed by others: leave this section out, or list the feeding collectors under from',
      },
    ]);
  });

  const small = 'a contraction raises pressure and temperature';
  test.each([
    [
      'od: 50',
      'od: 40',
      `secondaries.od: expected an od of at least 42.4 mm, the tube before it, found 40 mm: ${small}`,
    ],
    [
      'wall: 1.5',
      'wall: 6',
      `secondaries.wall: this wall leaves a bore of 38 mm, less than the 39.2 mm of the tube before it: ${small}`,
    ],
    ['length: 300', 'length: 0', 'secondaries.length: expected a length over 0 mm and at most 10000 mm, found 0 mm'],
    [
      'wall: 1.5',
      'wall: 1.5, spread: 0',
      'secondaries.spread: expected a length over 0 mm and at most 10000 mm, found 0 mm',
    ],
    [
      'clr: 75',
      'clr: 49',
      'secondaries.bends.0.clr: expected a CLR of at least 50 mm (tube.least_clr 1 x od), found 49 mm: the inside of a tighter bend thins and kinks; take a larger one, or lower tube.least_clr',
    ],
    ['wall: 1.5, ', '', 'secondaries.wall: missing; expected a length such as 44.45 or "1.75 in"'],
    ['length: 300', 'lenght: 300', 'secondaries.lenght: unknown field; did you mean "length"?'],
  ])('%j made %j is refused', (part, by, message) => {
    expect(faults(withCollectors(A + B + C, swap(SECONDARIES, part, by)))).toContain(message);
  });

  test('leave from outlets of their own size, and join into one no smaller', () => {
    expect(faults(withCollectors(A.replace('od: 50', 'od: 52') + B + C))).toEqual([
      'collectors.0.outlet.od: a secondary leaves from this outlet: expected its size (secondaries.od 50 mm), found 52 mm',
    ]);
    expect(faults(withCollectors(A + B + C.replace('od: 50', 'od: 45')))).toEqual([
      'collectors.2.outlet.od: expected an outlet no smaller than the secondaries (50 mm), found 45 mm',
    ]);
  });
});
