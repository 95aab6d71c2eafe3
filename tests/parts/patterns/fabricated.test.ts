import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { radians } from '../../../src/geometry/angle.js';
import { outlineArea, outlineBounds } from '../../../src/geometry/outline/measure.js';
import { arcFraction, sidesOf } from '../../../src/geometry/outline/sides.js';
import { validateOutline } from '../../../src/geometry/outline/valid.js';
import type { Vec2 } from '../../../src/geometry/vec2.js';
import type { FabricatedPiece } from '../../../src/params/plan.js';
import { cutContour, seamLine } from '../../../src/parts/patterns/cut-contour.js';
import { fabricatedPatterns } from '../../../src/parts/patterns/fabricated.js';
import type { Pattern } from '../../../src/parts/patterns/pattern.js';
import { contourPoints, laidBack } from '../../support/pattern-wrap.js';

const LAYOUT = { wrap: 'outside', tab: 15, paper: 0.1, units: 'mm' } as const;
const tube = { name: 'a piece', count: 1, od: 50, wall: 2 } as const;

/** Points of the pattern's edges that are not its seams. */
const edges = (p: Pattern): Vec2[] => {
  const { from, to } = outlineBounds(p.outline);
  return contourPoints(p).filter(([x]) => x > from[0] + 1e-6 && x < to[0] - 1e-6);
};

const sound = (p: Pattern): void => {
  validateOutline(p.outline);
  validateOutline(cutContour(p));
  for (const h of p.holes) validateOutline(h);
  expect(p.deviation).toBeLessThanOrEqual(0.005);
};

describe('a mitre', () => {
  test.each([
    ['outside', 25, 1],
    ['inside', 23, -1],
  ] as const)('paper %s shows the flat cut where that face meets it', (wrap, radius, way) => {
    const [p] = fabricatedPatterns({ ...tube, kind: 'mitre', angle: radians(22.5) }, { ...LAYOUT, wrap }) as [Pattern];
    sound(p);
    const { from, to } = outlineBounds(p.outline);
    // pi (od + paper) or pi (od - 2 wall - paper)
    expect(to[0] - from[0]).toBeCloseTo(Math.PI * (wrap === 'outside' ? 50.1 : 45.9), 9);
    expect(p.tube).toEqual({ od: 50, wall: 2, side: wrap });
    // One cosine of amplitude r tan(a), cut-the-knot.org, unfolding: about the height its note names.
    const axis = Number(/axis ([\d.]+) mm above/.exec(p.notes.join('\n'))![1]);
    for (const point of edges(p).filter(([, y]) => y > 1e-6)) {
      const [x, , z] = laidBack(p, point, radius);
      expect(Math.abs(z - axis - x * Math.tan(radians(22.5)))).toBeLessThan(0.011);
    }
    const at = (label: string): number => p.lines.find((l) => l.label.startsWith(label))!.points[0]![0];
    const quarter = (to[0] - from[0]) / 4;
    expect(at('90') - at('0')).toBeCloseTo(way * quarter, 9);
    expect(Math.sign(p.tab!.vertices[0]!.x + p.tab!.vertices[1]!.x - to[0] - from[0])).toBe(way);
  });

  test('the tab hangs on the contour, and the seam is its edge', () => {
    const [p] = fabricatedPatterns({ ...tube, kind: 'mitre', angle: 0.3 }, LAYOUT) as [Pattern];
    expect(outlineArea(cutContour(p))).toBeCloseTo(outlineArea(p.outline) + outlineArea(p.tab!), 6);
    expect(seamLine(p)!.map(([x]) => x)).toEqual([
      expect.closeTo(Math.PI * 50.1, 9),
      expect.closeTo(Math.PI * 50.1, 9),
    ]);
    const [bare] = fabricatedPatterns({ ...tube, kind: 'mitre', angle: 0.3 }, { ...LAYOUT, tab: 0 }) as [Pattern];
    expect([bare.tab, seamLine(bare), cutContour(bare)]).toEqual([null, null, bare.outline]);
  });
});

describe('a pie-cut bend', () => {
  const patterns = fabricatedPatterns(
    { ...tube, kind: 'pie_cut', clr: 75, turn: radians(90), joints: 4, count: 2 },
    LAYOUT,
  );

  test('has middle segments and two ends for each bend', () => {
    expect(patterns.map((p) => [p.name, p.count])).toEqual([
      ['a-piece-segment', 6],
      ['a-piece-end', 4],
    ]);
    patterns.forEach(sound);
    expect(patterns[0]!.notes[0]).toContain('every cut 11.25 deg');
    expect(fabricatedPatterns({ ...tube, kind: 'pie_cut', clr: 75, turn: 1, joints: 1 }, LAYOUT)).toHaveLength(1);
  });

  test('segments set one on another come round the turn about the centreline radius', () => {
    const [segment, end] = patterns as [Pattern, Pattern];
    // Height of the outline along the reference line and opposite it: outside and inside of the bend.
    const tall = (p: Pattern, k: number): number => {
      const [a, b] = p.lines[k]!.points as [Vec2, Vec2];
      return b[1] - a[1];
    };
    const cut = radians(90 / 8);
    expect(tall(segment, 0)).toBeCloseTo(2 * (75 + 25) * Math.tan(cut), 6);
    expect(tall(segment, 2)).toBeCloseTo(2 * (75 - 25) * Math.tan(cut), 6);
    expect(tall(end, 0)).toBeCloseTo(tall(segment, 0) / 2, 6);
    // Both edges of a segment on their planes through the bend's centre.
    const { from, to } = outlineBounds(segment.outline);
    const middle = (from[1] + to[1]) / 2;
    for (const point of edges(segment)) {
      const [x, , z] = laidBack(segment, point, 25);
      expect(Math.abs(Math.abs(z - middle) - (75 + x) * Math.tan(cut))).toBeLessThan(0.01);
    }
  });
});

describe('a saddle', () => {
  const saddle = (more: object): readonly Pattern[] =>
    fabricatedPatterns(
      { ...tube, kind: 'saddle', hostOd: 70, hostWall: 2, angle: Math.PI / 2, offset: 0, ...more } as FabricatedPiece,
      LAYOUT,
    );

  test('the branch touches the host all round without entering it, and its hole is the bore', () => {
    const [branch, hole] = saddle({ angle: radians(60), offset: 6 }) as [Pattern, Pattern];
    [branch, hole].forEach(sound);
    const axis = (p: Pattern): number => Number(/other ([\d.]+) mm above/.exec(p.notes.join('\n'))![1]);
    const host: readonly [number, number, number] = [Math.sin(radians(60)), 0, Math.cos(radians(60))];
    const fromHost = (x: number, y: number, z: number): number => {
      const along = x * host[0] + z * host[2];
      return Math.sqrt(x * x + (y - 6) ** 2 + z * z - along * along) - 35;
    };
    const places = Array.from({ length: 21 }, (_, k) => 23 + k / 10);
    let atBore = 0;
    const edge = edges(branch).filter(([, y]) => y > 1e-6);
    for (const point of edge) {
      const off = places.map((r) => {
        const [x, y, z] = laidBack(branch, point, r);
        return fromHost(x, y, z - axis(branch));
      });
      // Cut square to its skin it touches the host, and enters it nowhere in its wall.
      expect(Math.abs(Math.min(...off))).toBeLessThan(0.015);
      if (off[0]! < 0.015) atBore++;
    }
    expect(atBore).toBeGreaterThan(edge.length / 3);
    expect(atBore).toBeLessThan(edge.length);
    // The hole, laid on the host, is as far from the branch's axis as its bore.
    const { from, to } = outlineBounds(hole.outline);
    const zero = hole.lines[0]!.points[0]![0];
    for (const s of sidesOf(hole.holes[0]!)) {
      const turn = ((s.from[0] - zero) * 2 * Math.PI) / (to[0] - from[0]);
      const [f, left, along] = [35 * Math.cos(turn), 35 * Math.sin(turn), s.from[1] - axis(hole)];
      const [x, y] = [f * host[2] + along * host[0], 6 + left];
      expect(Math.abs(Math.hypot(x, y) - 23)).toBeLessThan(0.015);
    }
  });

  test('published: drop of 4 1/2 on 6 5/8 in is 0.8814 in, developed at the bore', () => {
    // calcady.com, pipe saddle coping
    const inch = 25.4;
    const [branch] = saddle({ od: 4.7 * inch, wall: 0.1 * inch, hostOd: 6.625 * inch }) as [Pattern];
    const ys = edges(branch)
      .map(([, y]) => y)
      .filter((y) => y > 1e-6);
    expect(((Math.max(...ys) - Math.min(...ys)) / inch).toFixed(4)).toBe('0.8814');
  });

  test('a hole is marked outside the host, however branches are wrapped', () => {
    const piece = { ...tube, kind: 'saddle', hostOd: 70, hostWall: 2, angle: 1.2, offset: 0 } as const;
    const sides = fabricatedPatterns(piece, { ...LAYOUT, wrap: 'inside' }).map((p) => p.tube!.side);
    expect(sides).toEqual(['inside', 'outside']);
  });
});

describe('pieces of sheet', () => {
  const frustum = {
    name: 'cone',
    count: 1,
    kind: 'frustum',
    from: 127,
    to: 203.2,
    height: 101.6,
    material: 'mild steel',
  } as const;

  test('the published frustum, 5 and 8 in over 4 in: 87.2358 in2, radii 7.12 and 11.39 in', () => {
    // ceemrr.com, Geometry2, Drawings and Nets 6; area pi (r + R) L
    const [p] = fabricatedPatterns({ ...frustum, measured: 'middle', thickness: 1.5 }, LAYOUT) as [Pattern];
    expect(outlineArea(p.outline) / 25.4 ** 2).toBeCloseTo(87.2358, 4);
    const arcs = sidesOf(p.outline).filter((s) => s.kind === 'arc');
    expect(arcs.map((a) => (a.radius / 25.4).toFixed(2)).sort()).toEqual(['11.39', '7.12']);
    expect(arcs.every((a) => arcFraction(a, Math.PI / 2) < 1)).toBe(true);
    expect([p.deviation, p.use, p.tube, p.tab]).toEqual([0, 'sheet', null, null]);
  });

  test('sizes of a face are taken to the middle of the sheet', () => {
    const area = (measured: 'outside' | 'inside' | 'middle', by: number): number => {
      const piece = { ...frustum, measured, thickness: 3, from: frustum.from + by, to: frustum.to + by };
      return outlineArea(fabricatedPatterns(piece, LAYOUT)[0]!.outline);
    };
    expect(area('outside', 3)).toBeCloseTo(area('middle', 0), 6);
    expect(area('inside', -3)).toBeCloseTo(area('middle', 0), 6);
  });

  test('any the plan lets through is sound, with its lines inside and its bends in order', () => {
    const size = (from: number, to: number) => fc.double({ min: from, max: to, noNaN: true });
    const sheet = { name: 'p', count: 1, thickness: 1.5, material: 'steel', measured: 'outside' } as const;
    const piece = fc.oneof(
      fc
        .tuple(size(10, 400), size(10, 400), size(0.5, 200), size(0.1, 2))
        .map(([from, to, offset, tall]): FabricatedPiece => {
          const height = tall * (Math.max(from, to) + 2 * offset);
          return { ...sheet, kind: 'eccentric', from, to, offset, height };
        }),
      fc
        .tuple(size(10, 400), size(10, 400), size(10, 400), size(0, 0.5), size(-80, 80), size(-80, 80), size(0.1, 2))
        .map(([width, depth, diameter, round, x, y, tall]): FabricatedPiece => {
          const height = tall * (Math.max(width, depth, diameter) + 2 * Math.hypot(x, y));
          const cornerRadius = round < 0.1 ? 0 : round * Math.min(width, depth);
          return { ...sheet, kind: 'square_to_round', width, depth, diameter, cornerRadius, offset: [x, y], height };
        }),
    );
    fc.assert(
      fc.property(piece, (p) => {
        const [pattern] = fabricatedPatterns(p, LAYOUT) as [Pattern];
        sound(pattern);
        const { from, to } = outlineBounds(pattern.outline);
        for (const [x, y] of pattern.lines.flatMap((l) => l.points)) {
          expect(x).toBeGreaterThan(from[0] - 0.01);
          expect(x).toBeLessThan(to[0] + 0.01);
          expect(y).toBeGreaterThan(from[1] - 0.01);
          expect(y).toBeLessThan(to[1] + 0.01);
        }
        expect(pattern.lines.filter((l) => l.kind === 'reference')).toHaveLength(1);
      }),
      { numRuns: 40 },
    );
  });
});

test('any mitre, bend or saddle the plan lets through is sound', () => {
  const size = (from: number, to: number) => fc.double({ min: from, max: to, noNaN: true });
  const round = fc.record({ od: size(10, 120), wall: size(0.5, 4), part: size(0, 1), more: size(0, 1) });
  const piece = fc.oneof(
    fc.tuple(round, size(0.002, radians(75))).map(([{ od, wall }, angle]): FabricatedPiece => {
      return { ...tube, kind: 'mitre', od, wall, angle };
    }),
    fc.tuple(round, size(0.02, Math.PI), fc.integer({ min: 2, max: 12 })).map(([t, turn, joints]): FabricatedPiece => {
      return { ...tube, kind: 'pie_cut', od: t.od, wall: t.wall, clr: t.od * (0.51 + 2 * t.part), turn, joints };
    }),
    // From a host just wide enough for the bore, or for the skin, upwards.
    fc
      .tuple(round, size(radians(20), Math.PI / 2), fc.constantFrom(0, 1, 2))
      .map(([t, angle, fit]): FabricatedPiece => {
        const bore = t.od - 2 * t.wall;
        const hostOd = [bore, t.od, t.od * (1 + 2 * t.more)][fit]!;
        const offset = fit === 2 ? ((hostOd - bore) / 2) * t.part : 0;
        return { ...tube, kind: 'saddle', od: t.od, wall: t.wall, hostOd, hostWall: 1, angle, offset };
      }),
  );
  fc.assert(
    fc.property(piece, fc.constantFrom('outside' as const, 'inside' as const), (p, wrap) => {
      for (const pattern of fabricatedPatterns(p, { ...LAYOUT, wrap })) sound(pattern);
    }),
    { numRuns: 60 },
  );
});
