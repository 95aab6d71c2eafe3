import { describe, expect, test } from 'vitest';
import { degrees } from '../../../src/geometry/angle.js';
import { coneSector, frustumOutline } from '../../../src/geometry/development/frustum.js';
import { outlineArea, outlineBounds, perimeter } from '../../../src/geometry/outline/measure.js';
import { validateOutline } from '../../../src/geometry/outline/valid.js';

describe('a right frustum', () => {
  test('published example, diameters 5 and 8 in, height 4 in: radii 7.12 and 11.39 in, 126.4 degrees', () => {
    // ceemrr.com, Geometry2, Drawings and Nets 6
    const { inner, outer, angle } = coneSector(5, 8, 4);
    expect(inner.toFixed(2)).toBe('7.12');
    expect(outer.toFixed(2)).toBe('11.39');
    expect(degrees(angle).toFixed(1)).toBe('126.4');
  });

  test('its area is that of the skin: 87.2358 in2', () => {
    // pi (r + R) L, with L = hypot(4, 1.5)
    expect(outlineArea(frustumOutline(5, 8, 4))).toBeCloseTo(Math.PI * 6.5 * Math.hypot(4, 1.5), 9);
    expect(outlineArea(frustumOutline(8, 5, 4))).toBeCloseTo(87.2358, 4);
  });

  test('a cone of 90 degrees at its tip is a sector of 254.6 degrees', () => {
    // anvilfire.com, 21st Century Blacksmithing, cone layout: 360 sin 45
    expect(degrees(coneSector(0, 20, 10).angle).toFixed(1)).toBe('254.6');
    const whole = frustumOutline(0, 20, 10);
    validateOutline(whole);
    expect(outlineArea(whole)).toBeCloseTo(Math.PI * 10 * Math.hypot(10, 10), 9);
  });

  test('its arcs are as long as the circles and exact', () => {
    const outline = frustumOutline(50, 80, 60);
    validateOutline(outline);
    const { slant } = coneSector(50, 80, 60);
    expect(perimeter(outline)).toBeCloseTo(Math.PI * 130 + 2 * slant, 9);
    expect(outline.vertices).toHaveLength(4);
  });

  test('equal diameters are a rectangle', () => {
    const { from, to } = outlineBounds(frustumOutline(50, 50, 60));
    expect([to[0] - from[0], to[1] - from[1]]).toEqual([50 * Math.PI, 60]);
  });

  test.each([
    [0, 0, 5],
    [5, 8, 0],
    [-1, 8, 4],
    [Number.NaN, 8, 4],
  ])('%d and %d mm over %d mm is refused', (from, to, height) => {
    expect(() => coneSector(from, to, height)).toThrow(RangeError);
  });
});
