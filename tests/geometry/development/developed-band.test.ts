import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type ConvexRim,
  circleRim,
  type Ellipse,
  hullRim,
  rectangleRim,
} from '../../../src/geometry/development/convex-rim.js';
import { type DevelopedBand, developBand } from '../../../src/geometry/development/developed-band.js';
import { coneSector, frustumOutline } from '../../../src/geometry/development/frustum.js';
import { pointToSide } from '../../../src/geometry/outline/distance.js';
import { outlineArea, perimeter } from '../../../src/geometry/outline/measure.js';
import { sidesOf } from '../../../src/geometry/outline/sides.js';
import { validateOutline } from '../../../src/geometry/outline/valid.js';
import { distance2, type Vec2 } from '../../../src/geometry/vec2.js';
import { cross, distance, dot, length, sub, type Vec3 } from '../../../src/geometry/vec3.js';

const TOLERANCE = 0.003;

/** Four tubes of 42 mm tilted inwards by 8 degrees, as a merge ends. */
const LOBES: readonly Ellipse[] = [0, 1, 2, 3].map((k) => {
  const turn = (k * Math.PI) / 2;
  return { centre: [16 * Math.cos(turn), 16 * Math.sin(turn)], along: 21 / Math.cos(0.14), across: 21, turn };
});

const CASES: readonly (readonly [string, ConvexRim, ConvexRim, number])[] = [
  ['a right frustum', circleRim([0, 0], 50), circleRim([0, 0], 80), 60],
  ['an oblique cone', circleRim([0, 0], 90), circleRim([18, -7], 60), 75],
  ['an oblique tube', circleRim([0, 0], 60), circleRim([25, 0], 60), 80],
  ['square to round', rectangleRim(90, 60, 0), circleRim([5, 3], 70), 85],
  ['rounded rectangle to round', rectangleRim(80, 50, 12), circleRim([0, 0], 55), 70],
  ['round to square', circleRim([0, 0], 40), rectangleRim(100, 100, 0), 50],
  ['four lobes to round', hullRim(LOBES), circleRim([0, 0], 60), 100],
  ['two lobes to round', hullRim([LOBES[0]!, LOBES[2]!]), circleRim([0, 0], 55), 90],
];

const triangle = (a: Vec3, b: Vec3, c: Vec3): number => length(cross(sub(b, a), sub(c, a))) / 2;

/** Area in space between neighbouring lines of the surface. */
const areaInSpace = ({ rulings }: DevelopedBand): number =>
  rulings.slice(1).reduce((sum, r, i) => {
    const before = rulings[i]!;
    return sum + triangle(before.low, before.high, r.low) + triangle(r.low, before.high, r.high);
  }, 0);

const rimLength = (rulings: readonly { readonly low: Vec3; readonly high: Vec3 }[], rim: 'low' | 'high'): number =>
  rulings.slice(1).reduce((sum, r, i) => sum + distance(r[rim], rulings[i]![rim]), 0);

describe.each(CASES)('%s', (_, low, high, height) => {
  const band = developBand(low, high, height, TOLERANCE);
  const { outline, rulings, deviation } = band;

  test('has a sound outline within 0.005 mm', () => {
    validateOutline(outline);
    expect(deviation).toBeLessThanOrEqual(0.005);
    expect(outline.vertices.length).toBeLessThan(200);
  });

  test('every line keeps its length, and so does every triangle between lines', () => {
    const off = rulings.flatMap((r, i) => {
      const before = rulings[Math.max(i - 1, 0)]!;
      return [
        distance2(r.flatLow, r.flatHigh) - distance(r.low, r.high),
        distance2(r.flatLow, before.flatLow) - distance(r.low, before.low),
        distance2(r.flatHigh, before.flatHigh) - distance(r.high, before.high),
        distance2(r.flatLow, before.flatHigh) - distance(r.low, before.high),
      ];
    });
    expect(Math.max(...off.map(Math.abs))).toBeLessThan(1e-8);
  });

  test('it is developable: one plane touches both rims along every line, and the line lies on their hull', () => {
    const some = rulings.filter((_, i) => i % 9 === 0);
    const points: Vec3[] = some.flatMap((r) => [r.low, r.high]);
    for (const r of some) {
      const round: Vec3 = [Math.cos(r.normal), Math.sin(r.normal), 0];
      const rise = dot(sub(r.high, r.low), round) / height;
      const out: Vec3 = [round[0], round[1], -rise];
      expect(Math.max(...points.map((p) => dot(sub(p, r.low), out)))).toBeLessThan(1e-6);
      expect(Math.abs(dot(sub(r.high, r.low), out))).toBeLessThan(1e-9);
    }
  });

  test('area and rims are those of the surface', () => {
    expect(Math.abs(outlineArea(outline) / areaInSpace(band) - 1)).toBeLessThan(1e-5);
    const seams = distance2(rulings[0]!.flatLow, rulings[0]!.flatHigh) * 2;
    const rims = rimLength(rulings, 'low') + rimLength(rulings, 'high');
    expect(Math.abs(perimeter(outline) - seams - rims)).toBeLessThan(0.01);
  });

  test('the outline passes every developed point of the rims within 0.005 mm', () => {
    const sides = sidesOf(outline);
    const off = (p: Vec2): number => Math.min(...sides.map((s) => pointToSide(p, s).distance));
    for (let i = 0; i < rulings.length; i += 7) {
      expect(off(rulings[i]!.flatLow)).toBeLessThan(0.005);
      expect(off(rulings[i]!.flatHigh)).toBeLessThan(0.005);
    }
  });

  test('bent back along its lines it closes on itself within 0.01 mm', () => {
    const back = folded(rulings);
    rulings.forEach((r, i) => {
      expect(distance(back[i]!.low, r.low)).toBeLessThan(0.01);
      expect(distance(back[i]!.high, r.high)).toBeLessThan(0.01);
    });
  });
});

/** The flat laid back: from line to line by its own lengths alone, on the side where the surface turns. */
function folded(rulings: DevelopedBand['rulings']): { low: Vec3; high: Vec3 }[] {
  const first = rulings[0]!;
  const out = [{ low: first.low, high: first.high }];
  rulings.slice(1).forEach((r, i) => {
    const [last, flat] = [out.at(-1)!, rulings[i]!];
    // The height of both rims is known; the third coordinate follows from the two lengths of the flat triangle.
    const low = onRim(
      last.low,
      last.high,
      distance2(flat.flatLow, r.flatLow),
      distance2(flat.flatHigh, r.flatLow),
      r.low,
    );
    const high = onRim(low, last.high, distance2(r.flatLow, r.flatHigh), distance2(flat.flatHigh, r.flatHigh), r.high);
    out.push({ low, high });
  });
  return out;
}

/** The point at the height of `near` at distances from a and b: of the two nearest to `near`. */
function onRim(a: Vec3, b: Vec3, fromA: number, fromB: number, near: Vec3): Vec3 {
  const [ra, rb] = [
    Math.sqrt(Math.max(fromA ** 2 - (near[2] - a[2]) ** 2, 0)),
    Math.sqrt(Math.max(fromB ** 2 - (near[2] - b[2]) ** 2, 0)),
  ];
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const d = Math.hypot(dx, dy);
  if (d < 1e-9) return near;
  const x = (ra * ra - rb * rb + d * d) / (2 * d);
  const y = Math.sqrt(Math.max(ra * ra - x * x, 0));
  const both = [1, -1].map(
    (way): Vec3 => [a[0] + (dx * x - dy * way * y) / d, a[1] + (dy * x + dx * way * y) / d, near[2]],
  );
  return distance(both[0]!, near) < distance(both[1]!, near) ? both[0]! : both[1]!;
}

test('a right frustum comes out as the sector of the closed form', () => {
  // published example, 5 and 8 in over 4 in: ceemrr.com, Geometry2, Drawings and Nets 6; area 87.2358 in2 by pi (r + R) L
  const band = developBand(circleRim([0, 0], 5 * 25.4), circleRim([0, 0], 8 * 25.4), 4 * 25.4, TOLERANCE);
  expect(outlineArea(band.outline) / 25.4 ** 2).toBeCloseTo(87.2358, 3);
  expect(Math.abs(perimeter(band.outline) - perimeter(frustumOutline(127, 203.2, 101.6)))).toBeLessThan(0.01);
  const { inner, angle } = coneSector(127, 203.2, 101.6);
  const [first, last] = [band.rulings[0]!.flatLow, band.rulings.at(-1)!.flatLow];
  expect(Math.abs(distance2(first, last) - 2 * inner * Math.sin(angle / 2))).toBeLessThan(0.01);
});

test('any circle to any other, anywhere above it: sound, within 0.005 mm, and of the area of the surface', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 20, max: 150, noNaN: true }),
      fc.double({ min: 20, max: 150, noNaN: true }),
      fc.double({ min: -40, max: 40, noNaN: true }),
      fc.double({ min: -40, max: 40, noNaN: true }),
      fc.double({ min: 60, max: 200, noNaN: true }),
      (from, to, x, y, height) => {
        const band = developBand(circleRim([0, 0], from), circleRim([x, y], to), height, TOLERANCE);
        validateOutline(band.outline);
        expect(band.deviation).toBeLessThanOrEqual(0.005);
        expect(Math.abs(rimLength(band.rulings, 'low') - Math.PI * from)).toBeLessThan(0.01);
        expect(Math.abs(rimLength(band.rulings, 'high') - Math.PI * to)).toBeLessThan(0.01);
        expect(Math.abs(outlineArea(band.outline) / areaInSpace(band) - 1)).toBeLessThan(1e-5);
      },
    ),
    { numRuns: 25 },
  );
});

test('a square to round has four flat triangles and four pieces of cone', () => {
  const { rulings } = developBand(rectangleRim(80, 80, 0), circleRim([0, 0], 60), 70, TOLERANCE);
  expect(rulings.filter((r, i) => i > 0 && r.before === 'flat')).toHaveLength(4);
});

test('no height is refused', () => {
  expect(() => developBand(circleRim([0, 0], 50), circleRim([0, 0], 80), 0, TOLERANCE)).toThrow('height');
});
