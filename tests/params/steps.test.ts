import { describe, expect, test } from 'vitest';
import { BASE, planFrom, problemsOf, swap } from './base-plan.js';

/** The base plan with steps in its tube; its outlet is 50 mm, its primaries 600 mm of 42.4 x 1.6. */
const stepped = (...steps: string[]) =>
  swap(BASE, '    - { clr: 63.5 }\n', `    - { clr: 63.5 }\n  steps:\n${steps.map((s) => `    - ${s}\n`).join('')}`);

const step = (fields: string) => `{ ${fields}, bends: [{ clr: 67.5 }] }`;

const faults = (text: string) => problemsOf(text).map((p) => `${p.path}: ${p.message}`);

describe('steps of the primaries', () => {
  test('come nearest the head first, each with its own stock', () => {
    const plan = planFrom(stepped(step('at: 200, od: 45, wall: 1.5'), step('at: 16 in, within: 0, od: 48, wall: 1.5')));
    const bends = [{ clr: 67.5, maxAngle: Math.PI, leg: 0, shortLeg: 0 }];
    const sticks = [{ length: 2000 }];
    expect(plan.tube.steps).toEqual([
      { at: 200, within: 15, od: 45, wall: 1.5, bends, sticks },
      { at: 406.4, within: 0, od: 48, wall: 1.5, bends, sticks },
    ]);
    expect(plan.tube.od).toBe(42.4);
  });

  test('the outlet takes the wall of the last one', () => {
    expect(planFrom(stepped(step('at: 200, od: 45, wall: 2'))).collectors[0]!.outlet.wall).toBe(2);
  });

  test('a route given by hand may use the bends of a step', () => {
    const route = `  routes:
    - by: xyz
      cylinder: 1
      points: [[0, 0, 0], [0, 0, 150], [0, -300, 150]]
      clr: 67.5
`;
    expect(planFrom(stepped(step('at: 200, od: 45, wall: 1.5')) + route).runners.given).toHaveLength(1);
    expect(faults(BASE + route)).toEqual([
      'runners.routes.0.clr: no bend in stock has a CLR of 67.5 mm; tube.bends has 63.5 mm',
    ]);
  });

  const small = 'a contraction raises pressure and temperature';
  test.each([
    ['at: 200, od: 40, wall: 1.5', `od: expected an od over 42.4 mm, the tube before it, found 40 mm: ${small}`],
    ['at: 200, od: 42.4, wall: 1.6', `od: expected an od over 42.4 mm, the tube before it, found 42.4 mm: ${small}`],
    [
      'at: 200, od: 45, wall: 3',
      `wall: this wall leaves a bore of 39 mm, less than the 39.2 mm of the tube before it: ${small}`,
    ],
    ['at: 200, od: 45, wall: 1.5, bends: []', 'bends: expected at least 1 entry, found []'],
    ['at: 0, od: 45, wall: 1.5', 'at: expected a length over 0 mm and at most 10000 mm, found 0 mm'],
    ['at: 20, od: 45, wall: 1.5', 'at: a step at 20 mm, give or take 15 mm, reaches into the flange (10 mm thick)'],
    [
      'at: 590, od: 45, wall: 1.5',
      'at: a step at 590 mm, give or take 15 mm, reaches past the primary (runners.length 600 mm)',
    ],
    ['at: 600, within: 0, od: 45, wall: 1.5', 'at: a step at 600 mm reaches past the primary (runners.length 600 mm)'],
    ['at: 200, within: -1, od: 45, wall: 1.5', 'within: expected a length from 0 mm to 500 mm, found -1 mm'],
    ['at: 200, od: 45', 'wall: missing; expected a length such as 44.45 or "1.75 in"'],
    [
      'at: 200, od: 45, wall: 1.5, clr: 60',
      'clr: unknown field; this section has at, within, size, od, wall, bends and sticks',
    ],
  ])('%j is refused', (fields, message) => {
    const text = fields.includes('bends') ? stepped(`{ ${fields} }`) : stepped(step(fields));
    expect(faults(text)).toEqual([`tube.steps.0.${message}`]);
    expect(problemsOf(text)[0]!.line).toBe(27);
  });

  test('the shortest length of a band counts', () => {
    const text = swap(stepped(step('at: 500, od: 45, wall: 1.5')), 'length: 600', 'length: { from: 510, to: 700 }');
    expect(faults(text)).toEqual([
      'tube.steps.0.at: a step at 500 mm, give or take 15 mm, reaches past the primary (runners.length 510 mm)',
    ]);
  });

  test.each([
    ['at: 200, od: 48, wall: 1.5', 'at: expected steps in order from the head: over 200 mm, found 200 mm'],
    ['at: 150, od: 48, wall: 1.5', 'at: expected steps in order from the head: over 200 mm, found 150 mm'],
    [
      'at: 225, od: 48, wall: 1.5',
      'at: this step and the one before may fall together: set them apart, or make within smaller',
    ],
    ['at: 300, od: 44, wall: 1.5', `od: expected an od over 45 mm, the tube before it, found 44 mm: ${small}`],
  ])('%j after one at 200 mm of 45 mm is refused', (fields, message) => {
    expect(faults(stepped(step('at: 200, od: 45, wall: 1.5'), step(fields)))).toEqual([`tube.steps.1.${message}`]);
  });

  test('four are too many, and an outlet smaller than the last is too small', () => {
    const four = [150, 250, 350, 450].map((at, i) => step(`at: ${at}, od: ${43 + i}, wall: 1.6`));
    expect(faults(stepped(...four))).toEqual(['tube.steps: expected at most 3 entries, found a list of 4']);
    expect(faults(stepped(step('at: 200, od: 51, wall: 1.5')))).toEqual([
      'collector.outlet.od: expected an outlet no smaller than the tube (51 mm), found 50 mm',
    ]);
  });
});

describe('least CLR', () => {
  const least = (value: string) => swap(BASE, '    - { clr: 63.5 }\n', `    - { clr: 63.5 }\n  least_clr: ${value}\n`);
  const mend = 'the inside of a tighter bend thins and kinks; take a larger one, or lower tube.least_clr';

  test('every stock bend below it is named, none is dropped', () => {
    const text = swap(least('1.5'), '- { clr: 63.5 }', '- { clr: 63.5 }\n    - { clr: 42.4 }\n    - { clr: 63.6 }');
    expect(problemsOf(text)).toEqual([
      {
        line: 25,
        column: 14,
        path: 'tube.bends.0.clr',
        message: `expected a CLR of at least 63.6 mm (tube.least_clr 1.5 x od), found 63.5 mm: ${mend}`,
      },
      {
        line: 26,
        column: 14,
        path: 'tube.bends.1.clr',
        message: `expected a CLR of at least 63.6 mm (tube.least_clr 1.5 x od), found 42.4 mm: ${mend}`,
      },
    ]);
  });

  test('one od exactly is enough, less when the plan says so', () => {
    expect(planFrom(swap(BASE, 'clr: 63.5', 'clr: 42.4')).tube.bends[0]!.clr).toBe(42.4);
    expect(planFrom(swap(least('0.75'), 'clr: 63.5', 'clr: 31.8')).tube.bends[0]!.clr).toBe(31.8);
    expect(faults(least('0.5'))).toEqual(['tube.least_clr: expected a number from 0.6 to 5, found 0.5']);
  });

  test('counts against the od of the step', () => {
    expect(faults(stepped('{ at: 200, od: 45, wall: 1.5, bends: [{ clr: 44 }] }'))).toEqual([
      `tube.steps.0.bends.0.clr: expected a CLR of at least 45 mm (tube.least_clr 1 x od), found 44 mm: ${mend}`,
    ]);
  });
});
