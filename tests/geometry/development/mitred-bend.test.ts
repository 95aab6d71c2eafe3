import { describe, expect, test } from 'vitest';
import { degrees, radians } from '../../../src/geometry/angle.js';
import { mitredBend } from '../../../src/geometry/development/mitred-bend.js';

describe('a mitred bend', () => {
  test.each([
    [90, 1, 45],
    [90, 3, 15],
    [45, 2, 11.25],
    [90, 5, 9],
  ])('of %d degrees in %d joints is cut at %d degrees', (turn, joints, cut) => {
    // machinecalcs.com, pipe mitre cut: turn / (2 joints)
    expect(degrees(mitredBend(radians(turn), 150, joints, 50).cut)).toBeCloseTo(cut, 12);
  });

  test('many joints come to the arc', () => {
    const { segment, end, middles } = mitredBend(radians(90), 150, 200, 50);
    expect(middles * segment + 2 * end).toBeCloseTo((150 * Math.PI) / 2, 1);
  });

  test('its inside and outside are as much shorter and longer as the tube is thick', () => {
    const { segment, inside, outside, cut } = mitredBend(radians(90), 150, 4, 60);
    expect(outside - inside).toBeCloseTo(2 * 60 * Math.tan(cut), 12);
    expect((outside + inside) / 2).toBeCloseTo(segment, 12);
  });

  test.each([
    [90, 150, 0, 50],
    [90, 150, 1.5, 50],
    [180, 150, 1, 50],
    [0, 150, 2, 50],
    [90, 25, 3, 50],
  ])('%d degrees about %d mm in %d joints of %d mm tube is refused', (turn, clr, joints, od) => {
    expect(() => mitredBend(radians(turn), clr, joints, od)).toThrow(RangeError);
  });
});
