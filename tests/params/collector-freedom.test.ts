import { describe, expect, test } from 'vitest';
import { radians } from '../../src/geometry/angle.js';
import { BASE, planFrom, problemsOf, swap } from './base-plan.js';

const free = (fields: string) => swap(BASE, 'direction: [0, -1, 0]', `direction: [0, -1, 0]\n  freedom: { ${fields} }`);

const faults = (text: string) => problemsOf(text).map((p) => `${p.path}: ${p.message}`);

describe('freedom of a collector', () => {
  test('comes as lowest and highest offset, rad, and a yes or no', () => {
    const { freedom, frame } = planFrom(free('from: [30, -20, 0], to: [-1 in, 20, 0], tilt: 10, turns: true'))
      .collectors[0]!;
    expect(freedom).toEqual({ from: [-25.4, -20, 0], to: [30, 20, 0], tilt: radians(10), turns: true });
    expect(frame.origin).toEqual([60, -300, 150]);
  });

  test('what is left out stays', () => {
    const fixed = { from: [0, 0, 0], to: [0, 0, 0] };
    expect(planFrom(free('turns: true')).collectors[0]!.freedom).toEqual({ ...fixed, tilt: 0, turns: true });
    expect(planFrom(free('tilt: 45')).collectors[0]!.freedom).toEqual({ ...fixed, tilt: Math.PI / 4, turns: false });
    expect(planFrom(free('to: [0, 0, 9]')).collectors[0]!.freedom).toEqual({
      from: [0, 0, 0],
      to: [0, 0, 9],
      tilt: 0,
      turns: false,
    });
    expect(planFrom(free('')).collectors[0]!.freedom).toBeNull();
  });

  test.each([
    ['tilt: 46', 'tilt: expected an angle from 0 to 45 degrees, found 46'],
    ['turns: 1', 'turns: expected true or false, found 1'],
    ['to: [1, 2]', 'to: expected at least 3 entries, found [1,2]'],
    [
      'from: [5, 0, 0], to: [9, 0, 0]',
      'from.0: the planned place must be among those allowed: from 5 mm to 9 mm along x leaves out 0',
    ],
    ['turn: true', 'turn: unknown field; did you mean "turns"?'],
  ])('%j is refused', (fields, message) => {
    expect(faults(free(fields))).toEqual([`collector.freedom.${message}`]);
    expect(problemsOf(free(fields))[0]!.line).toBe(29);
  });

  test('a route given by hand holds its collector', () => {
    const route = `  routes:
    - by: xyz
      cylinder: 1
      points: [[0, 0, 0], [0, 0, 150], [0, -300, 150]]
      clr: 63.5
`;
    expect(problemsOf(free('tilt: 5') + route)).toEqual([
      {
        line: 29,
        column: 3,
        path: 'collector.freedom',
        message: 'the route of cylinder 1 is given by hand and ends here: leave freedom out',
      },
    ]);
  });
});
