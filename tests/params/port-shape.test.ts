import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { outlineBounds, signedArea } from '../../src/geometry/outline/measure.js';
import { sharpestTurn } from '../../src/geometry/outline/turn.js';
import { validateOutline } from '../../src/geometry/outline/valid.js';
import { lengthsIn } from '../../src/params/fields/length-field.js';
import type { PortShape } from '../../src/params/port-shape/port-shape.js';
import { portShapeField } from '../../src/params/port-shape/table.js';

const field = portShapeField(lengthsIn('mm'));

const shape = (value: unknown): PortShape => field.parse(value) as PortShape;

/** Message of the one thing wrong with a shape, and its path. */
function fault(value: unknown): string {
  const parsed = field.safeParse(value);
  if (parsed.success) throw new Error('the shape was accepted');
  return parsed.error.issues.map((i) => `${i.path.join('.')}: ${i.message}`).join('\n');
}

/** What a dimension may be moved by to spare an outline sides too short to be, mm. */
const SNAP = 2e-6;

/** Size by closed form and by the outline. */
function expectSize({ outline }: PortShape, area: number, width: number, height: number): void {
  validateOutline(outline);
  expect(Math.abs(signedArea(outline) - area)).toBeLessThan(1e-12 * area + SNAP * 2 * (width + height));
  const { from, to } = outlineBounds(outline);
  expect(from[0]).toBeCloseTo(-width / 2, 5);
  expect(to[0]).toBeCloseTo(width / 2, 5);
  expect(from[1]).toBeCloseTo(-height / 2, 5);
  expect(to[1]).toBeCloseTo(height / 2, 5);
}

const size = fc.double({ min: 5, max: 200, noNaN: true });
const part = fc.double({ min: 0.01, max: 1, noNaN: true });
/** Area lost at one corner to its radius. */
const corner = (r: number) => r * r * (1 - Math.PI / 4);

describe('port shapes', () => {
  test('round: pi d^2 / 4', () => {
    fc.assert(
      fc.property(size, (diameter) => {
        expectSize(shape({ kind: 'round', diameter }), (Math.PI * diameter ** 2) / 4, diameter, diameter);
      }),
    );
    expect(shape({ kind: 'round', diameter: 38 }).words).toBe('round 38 mm');
  });

  test('oval: a circle and the straight between its halves', () => {
    fc.assert(
      fc.property(size, size, (width, height) => {
        const d = Math.min(width, height);
        const area = (Math.PI * d ** 2) / 4 + d * Math.abs(width - height);
        expectSize(shape({ kind: 'oval', width, height }), area, width, height);
      }),
    );
    expect(shape({ kind: 'oval', width: 44, height: 36 }).words).toBe('oval 44 x 36 mm');
  });

  test('rectangle: w h less four corners', () => {
    fc.assert(
      fc.property(size, size, part, (width, height, k) => {
        const r = (k * Math.min(width, height)) / 2;
        const area = width * height - 4 * corner(r);
        expectSize(shape({ kind: 'rectangle', width, height, corner_radius: r }), area, width, height);
      }),
    );
    expectSize(shape({ kind: 'rectangle', width: 40, height: 30 }), 1200, 40, 30);
  });

  test('trapezoid: half the sum of the widths by the height, less what the corners lose', () => {
    fc.assert(
      fc.property(size, size, size, part, (width_bottom, width_top, height, k) => {
        const lean = (width_bottom - width_top) / 2;
        const low = Math.atan2(height, lean);
        // A corner of angle a within loses r^2 (cot(a/2) - (pi - a) / 2).
        const lost = (a: number) => 1 / Math.tan(a / 2) - (Math.PI - a) / 2;
        const most = Math.min((width_bottom / 2) * Math.tan(low / 2), width_top / 2 / Math.tan(low / 2), height / 2);
        const r = k * most * 0.999;
        const made = shape({ kind: 'trapezoid', width_bottom, width_top, height, corner_radius: r });
        validateOutline(made.outline);
        const area = ((width_bottom + width_top) / 2) * height - 2 * r * r * (lost(low) + lost(Math.PI - low));
        expect(Math.abs(signedArea(made.outline) - area)).toBeLessThan(1e-9 * area + SNAP * 600);
        expect(sharpestTurn(made.outline)).toBeLessThan(1e-4);
        const { from, to } = outlineBounds(made.outline);
        expect(from[1]).toBeCloseTo(-height / 2, 5);
        expect(to[1]).toBeCloseTo(height / 2, 5);
        expect(from[0]).toBeCloseTo(-to[0], 9);
      }),
    );
  });

  test('trapezoid without corners, upside down, and with equal widths', () => {
    const plain = shape({ kind: 'trapezoid', width_bottom: 40, width_top: 30, height: 20 });
    expect(plain.outline.vertices.map((v) => [v.x, v.y, v.bulge])).toEqual([
      [20, -10, 0],
      [15, 10, 0],
      [-15, 10, 0],
      [-20, -10, 0],
    ]);
    expect(plain.words).toBe('trapezoid 40 mm and 30 x 20 mm, corners 0 mm');
    const over = shape({ kind: 'trapezoid', width_bottom: 40, width_top: 30, height: 20, rotation: 180 });
    expect(outlineBounds({ vertices: over.outline.vertices.filter((v) => v.y > 0) }).to[0]).toBeCloseTo(20, 12);
    expect(over.words).toBe('trapezoid 40 mm and 30 x 20 mm, corners 0 mm turned 180 degrees');
    const even = shape({ kind: 'trapezoid', width_bottom: 40, width_top: 40, height: 30, corner_radius: 6 });
    const rectangle = shape({ kind: 'rectangle', width: 40, height: 30, corner_radius: 6 });
    expect(signedArea(even.outline)).toBeCloseTo(signedArea(rectangle.outline), 9);
    expectSize(
      shape({ kind: 'trapezoid', width_bottom: 40, width_top: 40, height: 40, corner_radius: 20 }),
      Math.PI * 400,
      40,
      40,
    );
  });

  test.each([
    [
      { width_bottom: 40, width_top: 10, height: 30, corner_radius: 9 },
      'expected a corner radius of at most 8.09 mm, where the corners at the top touch, found 9 mm',
    ],
    [
      { width_bottom: 10, width_top: 40, height: 30, corner_radius: 9 },
      'expected a corner radius of at most 8.09 mm, where the corners at the bottom touch, found 9 mm',
    ],
    [
      { width_bottom: 60, width_top: 50, height: 12, corner_radius: 7 },
      'expected a corner radius of at most 6 mm, half the height, found 7 mm',
    ],
  ])('trapezoid: corners that do not fit are refused with the reason', (fields, message) => {
    expect(fault({ kind: 'trapezoid', ...fields })).toBe(`corner_radius: ${message}`);
  });

  test('d, tall: a rectangle under a half circle, less two corners', () => {
    fc.assert(
      fc.property(size, part, part, (width, k, c) => {
        const straight = k * width;
        const height = straight + width / 2;
        const r = c * Math.min(straight, width / 2) * 0.999;
        const area = width * straight + (Math.PI * width ** 2) / 8 - 2 * corner(r);
        expectSize(shape({ kind: 'd', width, height, corner_radius: r }), area, width, height);
      }),
    );
  });

  test('d, low: a segment of a circle through the ends of the flat and the top', () => {
    fc.assert(
      fc.property(size, fc.double({ min: 0.05, max: 0.499, noNaN: true }), (width, k) => {
        const height = k * width;
        // Segment of rise h over a chord w: r = (w^2 / 4 + h^2) / 2h, half angle = asin(w / 2r).
        const r = (width ** 2 / 4 + height ** 2) / (2 * height);
        const half = Math.asin(Math.min(1, width / (2 * r)));
        const area = r * r * (half - Math.sin(half) * Math.cos(half));
        expectSize(shape({ kind: 'd', width, height }), area, width, height);
      }),
    );
  });

  test('d with corners of half its flat is an oval, without straights a half circle', () => {
    const whole = shape({ kind: 'd', width: 40, height: 50, corner_radius: 20 });
    expectSize(whole, signedArea(shape({ kind: 'oval', width: 40, height: 50 }).outline), 40, 50);
    expectSize(shape({ kind: 'd', width: 40, height: 20 }), Math.PI * 200, 40, 20);
  });

  test('the flat of a d lies at -y, and rotation turns it', () => {
    const flat = (rotation: number) => {
      const { outline } = shape({ kind: 'd', width: 40, height: 32, rotation });
      return outline.vertices.filter((v, i) => {
        const next = outline.vertices[(i + 1) % outline.vertices.length]!;
        return v.bulge === 0 && Math.hypot(v.x - next.x, v.y - next.y) > 39;
      });
    };
    expect(flat(0)).toEqual([{ x: -20, y: -16, bulge: 0 }]);
    expect(flat(180)).toEqual([{ x: 20, y: 16, bulge: 0 }]);
    expect(flat(90)).toEqual([{ x: 16, y: -20, bulge: 0 }]);
  });

  test('rotation keeps the area, and a quarter turn swaps width and height exactly', () => {
    fc.assert(
      fc.property(fc.double({ min: -360, max: 360, noNaN: true }), (rotation) => {
        const plain = shape({ kind: 'rectangle', width: 50, height: 30, corner_radius: 6 });
        const turned = shape({ kind: 'rectangle', width: 50, height: 30, corner_radius: 6, rotation });
        validateOutline(turned.outline);
        expect(signedArea(turned.outline)).toBeCloseTo(signedArea(plain.outline), 8);
      }),
    );
    const quarter = outlineBounds(shape({ kind: 'oval', width: 50, height: 30, rotation: 90 }).outline);
    expect(quarter).toEqual({ from: [-15, -25], to: [15, 25] });
  });

  test('traced: the same area from either sense and from any first corner', () => {
    const points = [
      [-20, -15],
      [20, -15],
      [20, 5, 1],
      [-20, 5],
    ];
    // A rectangle 40 x 20 under a half circle of diameter 40.
    const area = 800 + Math.PI * 200;
    for (let first = 0; first < 4; first++) {
      const turned = [...points.slice(first), ...points.slice(0, first)];
      const forwards = shape({ kind: 'traced', points: turned });
      validateOutline(forwards.outline);
      expect(signedArea(forwards.outline)).toBeCloseTo(area, 9);
    }
    const backwards = shape({
      kind: 'traced',
      points: [
        [-20, 5],
        [20, 5, 0],
        [20, -15],
        [-20, -15],
      ].map((p, i) => (i === 0 ? [-20, 5, -1] : p)),
    });
    validateOutline(backwards.outline);
    expect(signedArea(backwards.outline)).toBeCloseTo(area, 9);
    expect(backwards.words).toBe('traced 40 x 40 mm, 4 corners');
  });

  test('two half circles trace a circle', () => {
    const { outline } = shape({
      kind: 'traced',
      points: [
        [20, 0, 1],
        [-20, 0, 1],
      ],
    });
    expect(signedArea(outline)).toBeCloseTo(Math.PI * 400, 9);
  });
});

test('sides that differ by rounding only leave no sliver: 1.75 in and 44.45 mm, corners of half a side', () => {
  const ulp = 44.45 + 7e-15;
  expect(shape({ kind: 'oval', width: 44.45, height: ulp }).outline.vertices).toHaveLength(4);
  expect(shape({ kind: 'rectangle', width: 60, height: ulp, corner_radius: 44.45 / 2 }).outline.vertices).toHaveLength(
    6,
  );
  expect(shape({ kind: 'd', width: 44.45, height: ulp / 2 }).outline.vertices).toHaveLength(2);
});

describe('port shapes that cannot be', () => {
  test.each([
    [{ kind: 'round', diameter: 0 }, 'diameter: expected a length over 0 mm and at most 300 mm, found 0 mm'],
    [{ kind: 'round', diameter: 301 }, 'diameter: expected a length over 0 mm and at most 300 mm, found 301 mm'],
    [
      { kind: 'rectangle', width: 40, height: 30, corner_radius: 16 },
      'corner_radius: expected a corner radius of at most 15 mm, half the smaller side, found 16 mm',
    ],
    [
      { kind: 'd', width: 40, height: 30, corner_radius: 12 },
      'corner_radius: expected a corner radius of at most 10 mm, the straights beside the flat, found 12 mm',
    ],
    [
      { kind: 'd', width: 40, height: 60, corner_radius: 21 },
      'corner_radius: expected a corner radius of at most 20 mm, half the flat, found 21 mm',
    ],
    [
      { kind: 'd', width: 40, height: 15, corner_radius: 1 },
      'corner_radius: expected a corner radius of at most 0 mm, the straights beside the flat, found 1 mm',
    ],
    [
      {
        kind: 'traced',
        points: [
          [-10, -10],
          [10, -10],
          [10, 10],
          [-10, 10],
          [-10, -10],
        ],
      },
      'points.4: the outline closes by itself: leave out the last point, it repeats the first',
    ],
    [
      {
        kind: 'traced',
        points: [
          [-10, -10],
          [10, -10],
          [10, -10],
          [0, 10],
        ],
      },
      'points.2: this point lies within 0.01 mm of the one before',
    ],
    [
      {
        kind: 'traced',
        points: [
          [50, 50],
          [70, 50],
          [70, 70],
          [50, 70],
        ],
      },
      "points: the outline must hold the port's centre: give its corners about `at`, which is [0, 0]",
    ],
    [
      {
        kind: 'traced',
        points: [
          [-200, -10],
          [200, -10],
          [0, 100],
        ],
      },
      'points: expected a port of at most 300 mm',
    ],
  ])('%j', (value, message) => {
    expect(fault(value)).toBe(message);
  });

  test.each([
    [
      'a bow tie',
      [
        [-10, -10],
        [10, 10],
        [10, -10],
        [-10, 10],
      ],
    ],
    [
      'a spike',
      [
        [-10, -10],
        [10, -10],
        [30, -10],
        [10, -10.001],
        [0, 10],
      ],
    ],
    [
      'an arc through the far side',
      [
        [-10, -10, -1],
        [10, -10],
        [10, -5],
        [-10, -5],
      ],
    ],
    [
      'no area',
      [
        [-10, 0],
        [10, 0],
      ],
    ],
    [
      'no area with arcs',
      [
        [-10, 0, 0.5],
        [10, 0, -0.5],
      ],
    ],
  ])('%s is refused', (_, points) => {
    expect(fault({ kind: 'traced', points })).toMatch(
      /^points: expected an outline with area that does not cross itself/,
    );
  });
});
