import { describe, expect, test } from 'vitest';
import { markedJig } from '../support/jig-fixture.js';
import { BASE, planFrom, problemsOf } from './base-plan.js';

const jig = (fields: string) => planFrom(`${BASE}jig: { ${fields} }\n`).jig;
const problems = (fields: string): string[] =>
  problemsOf(`${BASE}jig: { ${fields} }\n`).map((p) => `${p.path}: ${p.message}`);

describe('jig', () => {
  test('is useful when left out: solid tubes that slide, with scale, marks, chamfer and comb', () => {
    expect(planFrom(BASE).jig).toEqual(markedJig({ strut: null }));
  });

  test('takes joints, bores, cord and marks', () => {
    expect(jig('joint: press, press_fit: 0.05, tube: hollow, cord: 4, scale: false, marks: false, chamfer: 0')).toEqual(
      markedJig({
        strut: null,
        joint: 'press',
        pressFit: 0.05,
        tubeWall: 2.4,
        cord: 4,
        scale: null,
        marks: false,
        chamfer: 0,
      }),
    );
    expect(jig('tube: hollow, tube_wall: "0.1 in"').tubeWall).toBeCloseTo(2.54, 9);
    expect(jig('tube_wall: 3').tubeWall).toBeNull();
  });

  test('stands feet and a holder where the plan says', () => {
    expect(jig('foot: true').foot).toEqual({ bolts: null });
    expect(jig('foot: { bolts: [2] }').foot).toEqual({ bolts: [2] });
    const { holder } = jig(
      'holder: { bolts: [{ at: [0, -90, 5], normal: [0, -2, 0], thread: M10 }, { at: [50, -90, 5], normal: [0, -1, 0] }] }',
    );
    expect(holder).toMatchObject({
      collector: 0,
      bolts: [{ holeDiameter: 11 }, { holeDiameter: 9, threadDiameter: 8 }],
    });
    expect(holder!.bolts[0]!.frame).toMatchObject({ origin: [0, -90, 5], z: [0, -1, 0] });
  });

  test.each([
    ['joint: glue', /jig\.joint/],
    ['tube: hollow, tube_wall: 0.8', /jig\.tube_wall: expected a length from 1\.2 mm to 20 mm/],
    ['tube: hollow, tube_wall: 18', /jig\.tube_wall: expected at most a third of a tube of/],
    ['cord: 12', /jig\.cord: the keys of a tube of .* are wide enough for .* at most, found 12 mm/],
    ['cord: 0.2', /jig\.cord: expected a length from 1 mm/],
    ['foot: 3', /jig\.foot: expected true, false or a list of bolts/],
    ['foot: { bolts: [7] }', /jig\.foot\.bolts.*: expected a bolt from 1 to 2, found 7/],
    ['chamfer: 5', /jig\.chamfer/],
    ['holder: { bolts: [{ at: [0, 0, 0], normal: [0, 1, 0] }] }', /jig\.holder\.bolts/],
    [
      'holder: { collector: nose, bolts: [{ at: [0, 0, 0], normal: [0, 1, 0] }, { at: [9, 0, 0], normal: [0, 1, 0] }] }',
      /jig\.holder\.collector: no collector is named .?nose.?; there is/,
    ],
  ])('refuses %s', (fields, message) => {
    expect(problems(fields).join('\n')).toMatch(message);
  });
});
