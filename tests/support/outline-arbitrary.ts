import fc from 'fast-check';
import { circleOutline, rectangleOutline } from '../../src/geometry/outline/make.js';
import type { Outline } from '../../src/geometry/outline/outline.js';
import { rotateOutline, translateOutline } from '../../src/geometry/outline/transform.js';

const mm = (min: number, max: number): fc.Arbitrary<number> =>
  fc.integer({ min: min * 10, max: max * 10 }).map((n) => n / 10);

/** Circles, ovals, rectangles and rounded rectangles of 10 to 60 mm, turned and placed in a field of +-50 mm on a 0.1 mm grid. */
export const convexOutline: fc.Arbitrary<Outline> = fc
  .record({
    shape: fc.constantFrom('circle', 'oval', 'rectangle', 'rounded'),
    width: mm(10, 60),
    height: mm(10, 60),
    degrees: fc.constantFrom(0, 0, 0, 17, 45, 90, 133),
    x: mm(-50, 50),
    y: mm(-50, 50),
  })
  .map(({ shape, width, height, degrees, x, y }) => {
    const least = Math.min(width, height);
    const made = (): Outline => {
      if (shape === 'circle') return circleOutline([0, 0], width);
      if (shape === 'oval') return rectangleOutline(width, height, least / 2);
      return rectangleOutline(width, height, shape === 'rounded' ? least / 4 : 0);
    };
    const a = (degrees * Math.PI) / 180;
    return translateOutline(rotateOutline(made(), Math.cos(a), Math.sin(a)), [x, y]);
  });
