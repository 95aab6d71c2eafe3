import { expect, test } from 'vitest';
import { QUARTER_BULGE } from '../../src/geometry/outline/make.js';
import { bulgeOf, sideBetween } from '../../src/geometry/outline/sides.js';

// Autodesk DXF and ActiveX references: bulge is the tangent of a quarter of the included angle, negative for a clockwise arc,
// 0 for a line and 1 for a half circle.
test('a quarter circle has bulge 0.414214', () => {
  expect(QUARTER_BULGE).toBeCloseTo(0.414214, 6);
  const arc = sideBetween([1, 0], [0, 1], 0.414214);
  expect(arc).toMatchObject({ kind: 'arc', sweep: expect.closeTo(Math.PI / 2, 5), radius: expect.closeTo(1, 5) });
});

test('bulge 1 is a half circle, counter-clockwise from start to end', () => {
  const arc = sideBetween([5, 0], [-5, 0], 1);
  expect(arc).toMatchObject({ kind: 'arc', radius: 5, sweep: Math.PI, centre: [expect.closeTo(0), expect.closeTo(0)] });
});

test('a negative bulge runs clockwise', () => {
  const arc = sideBetween([5, 0], [-5, 0], -1);
  expect(arc).toMatchObject({ sweep: -Math.PI });
});

test('bulge 0 is a line', () => {
  expect(sideBetween([0, 0], [1, 1], 0).kind).toBe('line');
});

test.each([0.1, 0.414214, 1, 2.5, -0.3, -1.7])('bulge %d comes back from its side', (bulge) => {
  expect(bulgeOf(sideBetween([3, -2], [17, 9], bulge))).toBeCloseTo(bulge, 12);
});
