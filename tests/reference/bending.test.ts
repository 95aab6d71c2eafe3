import { describe, expect, it } from 'vitest';
import { bendTable } from '../../src/export/csv/bend-table.js';
import { degrees, radians } from '../../src/geometry/angle.js';
import {
  pathFromPolygon,
  polygonLength,
  straightLengths,
  tangentLength,
} from '../../src/geometry/path/control-polygon.js';
import { lraFromPolygon } from '../../src/geometry/path/lra.js';
import { endOf, pathLength } from '../../src/geometry/path/path.js';
import { distance, type Vec3 } from '../../src/geometry/vec3.js';
import type { RoutedPrimary } from '../../src/routing/routed.js';
import { csvRows } from '../support/csv-rows.js';

/**
 * ASME B16.9 butt-weld elbows, mm: NPS, outside diameter, long-radius 90 deg centre-to-end A, 180 deg return centre-to-centre O and
 * back-to-face K; seen in secondary copies of the standard. Tolerances of the standard: A +-2, O and K +-6 mm; the table's own
 * rounding is below 0.3 mm (0.8 mm for O and K, rounded to whole mm in these copies).
 */
const ELBOWS = [
  { nps: 1, od: 33.4, a: 38.1, o: 76, k: 56 },
  { nps: 1.25, od: 42.2, a: 47.8, o: 95, k: 70 },
  { nps: 1.5, od: 48.3, a: 57.2, o: 114, k: 83 },
  { nps: 2, od: 60.3, a: 76.2, o: 152, k: 106 },
  { nps: 2.5, od: 73.0, a: 95.2, o: 190, k: 132 },
  { nps: 3, od: 88.9, a: 114.3, o: 229, k: 159 },
] as const;

/** Right angles in space. */
const STAIRCASE = {
  points: [
    [0, 0, 0],
    [100, 0, 0],
    [100, 150, 0],
    [100, 150, 120],
    [220, 150, 120],
  ],
  clr: [40, 40, 40],
} as const;

describe('ASME B16.9 long-radius elbows', () => {
  it.each(ELBOWS)('NPS $nps: centre to end of a 90 deg elbow is that of a path with CLR 1.5 x NPS', ({ nps, a }) => {
    const clr = 1.5 * nps * 25.4;
    const path = pathFromPolygon({
      points: [
        [0, 0, 0],
        [clr, 0, 0],
        [clr, clr, 0],
      ],
      clr: [clr],
    });
    const corner: Vec3 = [clr, 0, 0];
    expect(Math.abs(distance(corner, endOf(path).point) - a)).toBeLessThan(0.3);
    expect(pathLength(path)).toBeCloseTo((Math.PI / 2) * clr, 9);
  });

  it.each(ELBOWS)('NPS $nps: a 180 deg return of the same CLR', ({ nps, od, o, k }) => {
    const clr = 1.5 * nps * 25.4;
    const points: Vec3[] = [
      [0, 0, 0],
      [clr, 0, 0],
      [clr, 2 * clr, 0],
      [0, 2 * clr, 0],
    ];
    const path = pathFromPolygon({ points, clr: [clr, clr] });
    expect(Math.abs(distance(points[0]!, endOf(path).point) - o)).toBeLessThan(0.8);
    // the table's own K strays up to 1.7 mm from A + OD / 2 at the small sizes; the standard allows +-6 mm
    expect(Math.abs(clr + od / 2 - k)).toBeLessThan(1.8);
  });
});

describe('bend arithmetic', () => {
  // Identities of bending: T = R tan(angle / 2), arc = R angle, inside and outside arcs (R -+ OD / 2) angle. Figures computed
  // independently for OD 38.1, R 57.15, 90 deg; not a publication.
  it('tangent and arcs of OD 38.1 mm at CLR 57.15 mm', () => {
    const angle = radians(90);
    expect(tangentLength(57.15, angle)).toBeCloseTo(57.15, 10);
    expect(57.15 * angle).toBeCloseTo(89.771, 3);
    expect((57.15 - 38.1 / 2) * angle).toBeCloseTo(59.847, 3);
    expect((57.15 + 38.1 / 2) * angle).toBeCloseTo(119.695, 3);
  });
});

describe('XYZ to LRA', () => {
  it('a published example: a planar offset comes out as two quarter bends half a turn apart', () => {
    // Input as posted in a public mathematics forum on converting XYZ coordinates to LRA; the answer follows from it by hand.
    const points: Vec3[] = [
      [38.5202, -14.0264, 0],
      [45.3142, -14.0264, 0],
      [45.3142, -17.5214, 0.9654],
      [48.6822, -17.5214, 0.9654],
    ];
    const lengths = points.slice(1).map((p, i) => distance(p, points[i]!));
    expect(lengths[0]).toBeCloseTo(6.794, 4);
    expect(lengths[1]).toBeCloseTo(3.6259, 4);
    expect(lengths[2]).toBeCloseTo(3.368, 4);
    const { rows } = lraFromPolygon({ points, clr: [1, 1] });
    expect(degrees(rows[0]!.angle)).toBeCloseTo(90, 6);
    expect(degrees(rows[1]!.angle)).toBeCloseTo(90, 6);
    expect(Math.abs(degrees(rows[1]!.rotation))).toBeCloseTo(180, 6);
  });

  it('a staircase in space', () => {
    // computed independently in closed form, not a publication
    const { rows, lastStraight } = lraFromPolygon(STAIRCASE);
    expect(rows.map((r) => degrees(r.angle))).toEqual([90, 90, 90].map((a) => expect.closeTo(a, 9)));
    expect(rows.slice(1).map((r) => Math.abs(degrees(r.rotation)))).toEqual([90, 90].map((a) => expect.closeTo(a, 9)));
    expect([...rows.map((r) => r.straight), lastStraight]).toEqual([60, 70, 40, 80].map((s) => expect.closeTo(s, 9)));
    expect(polygonLength(STAIRCASE)).toBeCloseTo(438.496, 3);
  });

  it('two unequal bends', () => {
    // computed independently in closed form, not a publication
    const polygon = {
      points: [
        [0, 0, 0],
        [100, 0, 0],
        [200, 100, 0],
        [200, 200, 100],
      ] as const,
      clr: [50, 50],
    };
    const { rows } = lraFromPolygon(polygon);
    expect(rows.map((r) => degrees(r.angle))).toEqual([45, 60].map((a) => expect.closeTo(a, 9)));
    expect(Math.abs(degrees(rows[1]!.rotation))).toBeCloseTo(54.7356, 4);
    expect(straightLengths(polygon)).toEqual([79.2893, 91.8432, 112.5538].map((s) => expect.closeTo(s, 4)));
    expect(rows.map((r) => r.clr * r.angle)).toEqual([39.2699, 52.3599].map((s) => expect.closeTo(s, 4)));
    expect(polygonLength(polygon)).toBeCloseTo(375.3161, 4);
  });

  it('a staircase in space, as a bender with a length counter reads it', () => {
    // computed independently in closed form, not a publication: arcs of 62.832 mm, 438.496 mm developed
    const rows = csvRows(bendTable([{ cylinder: 1, polygon: STAIRCASE } as unknown as RoutedPrimary]).bytes);
    const column = (name: string): (number | null)[] => rows.map((r) => (r[name] === '' ? null : Number(r[name])));
    const near = (...values: (number | null)[]) => values.map((v) => (v === null ? null : expect.closeTo(v, 3)));
    expect(column('arc_mm')).toEqual(near(null, 62.832, 62.832, 62.832, null));
    expect(column('distance_between_bends_mm')).toEqual(near(null, null, 70, 40, null));
    expect(column('developed_to_here_mm')).toEqual(near(0, 122.832, 255.664, 358.496, 438.496));
    // by hand: planes with normals z, x and y; z turns into x about y, x into y about z, each right-handed a quarter turn
    expect(column('rotation_deg').slice(2, 4)).toEqual(near(90, 90));
    expect(column('rotation_ccw_deg').slice(1, 4)).toEqual(near(0, 270, 270));
  });
});
