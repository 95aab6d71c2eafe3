import { describe, expect, it } from 'vitest';
import { cosSinDegrees } from '../../../src/geometry/angle.js';
import { shadowArea, shadowBox, shadowOf, stretchesOn, turnedShadow } from '../../../src/geometry/mesh/shadow.js';
import { difference, evaluate, placed, type Solid, union } from '../../../src/geometry/solid/solid.js';
import { bar, box } from '../../../src/geometry/solid/solid-shapes.js';
import { CHORD_ERROR } from '../../../src/geometry/tolerance.js';

const shadow = (solid: Solid) => shadowOf(evaluate(solid));
const washer = difference(bar(30, 0, 4), bar(12, -1, 5));
const mushroom = union(box([-5, -5, 0], [5, 5, 20]), box([-20, -10, 18], [20, 10, 25]), box([0, 0, 24], [8, 8, 40]));

describe('shadow', () => {
  it('has the area of closed forms, what lies above or below counted once', () => {
    expect(shadowArea(shadow(box([1, 2, 3], [11, 22, 5])))).toBeCloseTo(200, 6);
    expect(shadowArea(shadow(mushroom))).toBeCloseTo(40 * 20, 6);
    const off = Math.PI * 2 * (30 + 12) * CHORD_ERROR;
    expect(Math.abs(shadowArea(shadow(washer)) - Math.PI * (900 - 144))).toBeLessThan(off + 0.5);
  });

  it('of a bar on its side is as long and as wide as the bar', () => {
    const lying = placed(bar(6, -20, 20), { origin: [0, 0, 0], x: [0, 1, 0], y: [0, 0, 1], z: [1, 0, 0] });
    const { low, high } = shadowBox(shadow(lying));
    expect(high[0] - low[0]).toBeCloseTo(40, 6);
    expect(shadowArea(shadow(lying))).toBeCloseTo(40 * 12, 0);
  });

  it('keeps its area however it is turned', () => {
    for (const deg of [0, 17, 45, 90, 133, 270]) {
      const turned = turnedShadow(shadow(mushroom), ...cosSinDegrees(deg));
      expect(Math.abs(shadowArea(turned) - 800)).toBeLessThan(0.5);
    }
  });

  it('is crossed in stretches, the hole of a washer left out', () => {
    const [middle, edge, outside] = stretchesOn(shadow(washer), 0.01, 20, 3);
    expect(middle!.map((x) => Math.round(x))).toEqual([-30, -12, 12, 30]);
    expect(edge).toHaveLength(2);
    expect(outside).toEqual([]);
  });
});
