import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { pointFrom, pointInto } from '../../../src/geometry/frame.js';
import { pointToOutline } from '../../../src/geometry/outline/distance.js';
import { outlineArea, outlineBounds, perimeter } from '../../../src/geometry/outline/measure.js';
import { validateOutline } from '../../../src/geometry/outline/valid.js';
import { heightAbove } from '../../../src/geometry/plane.js';
import { evaluate, hullOfPoints, placed, trimmed } from '../../../src/geometry/solid/solid.js';
import { bar, circlePoints } from '../../../src/geometry/solid/solid-shapes.js';
import { distance2 } from '../../../src/geometry/vec2.js';
import { cross, length, sub, type Vec3 } from '../../../src/geometry/vec3.js';
import { inletTube } from '../../../src/params/collector/inlet-tube.js';
import { STARTERS } from '../../../src/params/text/starter.js';
import { type CollectorGeometry, collectorGeometry } from '../../../src/parts/collector/merge-geometry.js';
import {
  branchPatterns,
  conePattern,
  diffuserPattern,
  inletPattern,
} from '../../../src/parts/patterns/collector-patterns.js';
import { mergePlan, TUBE, VENTURI } from '../../support/merge-plan.js';
import { contourPoints, laidBack } from '../../support/pattern-wrap.js';
import { starterPlan } from '../../support/starter.js';

const LAYOUT = { wrap: 'outside', tab: 15, paper: 0.1, units: 'mm' } as const;

const kinds = STARTERS.flatMap(({ name }) => {
  const plan = starterPlan(name);
  return plan.collectors.map((c) => ({
    title: `${name}: ${c.name}`,
    kind: { geometry: collectorGeometry(c, inletTube(plan, c)), file: 'collector', names: [c.name] },
  }));
});

/** How far a point of a tube's skin, in the collector's frame, is from the surface the tube ends on: the lowest of its cuts. */
function offTheEnd(g: CollectorGeometry, p: Vec3): number {
  const cuts = [...g.cuts[0]!.planes, { point: [0, 0, g.mergeLength] as const, normal: [0, 0, -1] as const }];
  return Math.min(...cuts.map((c) => heightAbove(c, p)));
}

describe.each(kinds.filter(({ kind }) => kind.geometry.inlets > 1))('inlet of $title', ({ kind }) => {
  const g = kind.geometry;

  test.each(['outside', 'inside'] as const)(
    'wrapped %s and laid back on the tube, its edge lies on the cuts within 0.01 mm',
    (wrap) => {
      const p = inletPattern(kind, { ...LAYOUT, wrap })!;
      validateOutline(p.outline);
      validateOutline(p.tab!);
      expect(p.deviation).toBeLessThanOrEqual(0.005);
      expect(p.count).toBe(g.inlets);
      const radius = wrap === 'outside' ? g.outside : g.bore;
      const { from, to } = outlineBounds(p.outline);
      // Once round at the middle of the paper: pi (od + paper) outside, pi (bore - paper) inside.
      expect(to[0] - from[0]).toBeCloseTo(2 * Math.PI * (radius + (wrap === 'outside' ? 0.05 : -0.05)), 6);
      let onCut = 0;
      for (const point of contourPoints(p)) {
        const atSeam = point[0] < from[0] + 1e-6 || point[0] > to[0] - 1e-6;
        if (atSeam || point[1] < from[1] + 1e-6) continue;
        const world = pointFrom(g.cuts[0]!.frame, laidBack(p, point, radius));
        expect(Math.abs(offTheEnd(g, world))).toBeLessThan(0.01);
        onCut++;
      }
      expect(onCut).toBeGreaterThan(100);
    },
  );

  test('every corner of the trimmed solid tube on its cut edge lies on the pattern within 0.01 mm', () => {
    const p = inletPattern(kind, LAYOUT)!;
    const { frame, planes } = g.cuts[0]!;
    const long = g.totalLength + 4 * g.outside;
    const tube = placed(bar(g.outside, 0, long, g.outside, 0.002), frame);
    const end = { point: [0, 0, g.mergeLength] as const, normal: [0, 0, -1] as const };
    const mesh = evaluate([...planes, end].reduce(trimmed, tube));
    const { from, to } = outlineBounds(p.outline);
    const zero = p.lines[0]!.points[0]![0];
    let edge = 0;
    for (let i = 0; i < mesh.positions.length; i += 3) {
      const world = [mesh.positions[i]!, mesh.positions[i + 1]!, mesh.positions[i + 2]!] as const;
      const [x, y, z] = pointInto(frame, world);
      // On the skin, away from the square end.
      if (Math.abs(Math.hypot(x, y) - g.outside) > 0.003 || z < 0.5) continue;
      const width = to[0] - from[0];
      const round = zero + (Math.atan2(y, x) / (2 * Math.PI)) * width - from[0];
      const at = from[0] + (((round % width) + width) % width);
      expect(pointToOutline([at, z], p.outline).distance).toBeLessThan(0.01);
      edge++;
    }
    expect(edge).toBeGreaterThan(100);
  });

  test('the seam is on the shortest generator and the reference line on the outside of the ring', () => {
    const p = inletPattern(kind, LAYOUT)!;
    const { from, to } = outlineBounds(p.outline);
    const seam = p.tab!.vertices.map((v) => v.y);
    const inner = contourPoints(p).filter(([x, y]) => x > from[0] + 1e-6 && x < to[0] - 1e-6 && y > 1e-6);
    expect(Math.max(...seam)).toBeLessThanOrEqual(Math.min(...inner.map(([, y]) => y)) + 0.01);
    const [x, , z] = pointFrom(g.cuts[0]!.frame, laidBack(p, p.lines[0]!.points[1]!, g.outside));
    // Inlet 1 stands on +x of the collector: its outer line is further out than its axis.
    expect(x).toBeGreaterThan(g.mergeRadius);
    expect(z).toBeCloseTo(g.mergeLength, 2);
  });
});

describe.each(kinds)('cone of $title', ({ kind }) => {
  const g = kind.geometry;
  const p = conePattern(kind, '304 stainless', 'mm')!;

  test('is sound, within 0.005 mm, and its rims are as long as those of the collector at mid wall', () => {
    validateOutline(p.outline);
    expect(p.deviation).toBeLessThanOrEqual(0.005);
    const outlet = Math.PI * (2 * g.outletBore + g.coneWall);
    const seam = seamOf(p);
    const inlet = g.inlets === 1 ? Math.PI * (2 * g.bore + g.coneWall) : hullLength(g);
    expect(Math.abs(perimeter(p.outline) - 2 * seam - outlet - inlet)).toBeLessThan(0.02);
  });

  test('it is as large as the side of the hull that the kernel makes of the rims', () => {
    const r = g.bore + g.coneWall / 2;
    const low = (g.inlets === 1 ? [0] : g.cuts.map((_, i) => (2 * Math.PI * i) / g.inlets)).flatMap((turn) =>
      circlePoints(r, 0.0005).map(([x, y]): Vec3 => {
        const u = g.mergeRadius + x / Math.cos(g.mergeHalfAngle);
        return [u * Math.cos(turn) - y * Math.sin(turn), u * Math.sin(turn) + y * Math.cos(turn), 0];
      }),
    );
    const high = circlePoints(g.outletBore + g.coneWall / 2, 0.0005).map(([x, y]): Vec3 => [x, y, g.coneLength]);
    const { positions, triangles } = evaluate(hullOfPoints([...low, ...high]));
    const corner = (k: number): Vec3 => [positions[3 * k]!, positions[3 * k + 1]!, positions[3 * k + 2]!];
    let side = 0;
    for (let i = 0; i < triangles.length; i += 3) {
      const [a, b, c] = [0, 1, 2].map((k) => corner(triangles[i + k]!)) as [Vec3, Vec3, Vec3];
      const flat = Math.abs(a[2] - b[2]) < 1e-3 && Math.abs(a[2] - c[2]) < 1e-3;
      if (!flat) side += length(cross(sub(b, a), sub(c, a))) / 2;
    }
    expect(Math.abs(outlineArea(p.outline) / side - 1)).toBeLessThan(1e-4);
  });
});

/** Length of the seam: the two straight ends of the outline are alike. */
function seamOf(p: {
  readonly outline: { readonly vertices: readonly { x: number; y: number; bulge: number }[] };
}): number {
  const v = p.outline.vertices;
  const lengths = v.flatMap((a, i) => {
    const b = v[(i + 1) % v.length]!;
    return a.bulge === 0 ? [distance2([a.x, a.y], [b.x, b.y])] : [];
  });
  const long = Math.max(...lengths);
  const seams = lengths.filter((l) => lengths.filter((m) => Math.abs(m - l) < 1e-4).length >= 2 && l > long / 2);
  return seams.at(-1)!;
}

/** Way round the lobes at the merge's end: a hull of dense points, apart from the program's rims. */
function hullLength(g: CollectorGeometry): number {
  const r = g.bore + g.coneWall / 2;
  const points = g.cuts.flatMap((_, i) => {
    const turn = (2 * Math.PI * i) / g.inlets;
    return Array.from({ length: 4000 }, (_unused, k) => {
      const a = (2 * Math.PI * k) / 4000;
      const [u, v] = [g.mergeRadius + (r / Math.cos(g.mergeHalfAngle)) * Math.cos(a), r * Math.sin(a)];
      return [u * Math.cos(turn) - v * Math.sin(turn), u * Math.sin(turn) + v * Math.cos(turn)] as const;
    });
  });
  points.sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const half = (all: typeof points) => {
    const chain: (readonly [number, number])[] = [];
    for (const p of all) {
      for (;;) {
        const [a, b] = [chain.at(-2), chain.at(-1)];
        if (a === undefined || b === undefined) break;
        if ((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]) > 0) break;
        chain.pop();
      }
      chain.push(p);
    }
    return chain.slice(1).reduce((sum, p, i) => sum + distance2(p, chain[i]!), 0);
  };
  return half(points) + half([...points].reverse());
}

test('collectors of any number, angle, gap and cone, short ones too, have sound patterns', () => {
  const size = (from: number, to: number) => fc.double({ min: from, max: to, noNaN: true });
  const plan = starterPlan('inline-four');
  const base = plan.collectors[0]!;
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 6 }),
      size(20, 60),
      size(0, 15),
      size(0.01, 0.6),
      size(20, 140),
      fc.oneof(size(1, 20), size(20, 300)),
      (n, od, gap, mergeHalfAngle, outlet, coneLength) => {
        const c = {
          ...base,
          cylinders: Array.from({ length: n }, (_, i) => i + 1),
          inletGap: gap,
          mergeHalfAngle,
          outlet: { ...base.outlet, od: outlet, wall: 1.5, coneLength },
        };
        const kind = { geometry: collectorGeometry(c, { od, wall: 1.5 }), file: 'collector', names: ['collector'] };
        for (const p of [inletPattern(kind, LAYOUT), conePattern(kind, 'steel', 'mm')]) {
          if (p === null) continue;
          validateOutline(p.outline);
          expect(p.deviation).toBeLessThanOrEqual(0.005);
        }
      },
    ),
    { numRuns: 60 },
  );
});

describe('a venturi with a branch on its tail', () => {
  const branch = { od: 44.5, wall: 2, angle: Math.PI / 3, at: 0, clocking: 0.4, length: 120, on: 'tail' as const };
  const plain = collectorGeometry(mergePlan(4, { outlet: VENTURI }), TUBE);
  const at = plain.totalLength - VENTURI.tail / 2;
  const geometry = collectorGeometry(mergePlan(4, { outlet: VENTURI, branch: { ...branch, at } }), TUBE);
  const kind = { geometry, file: 'merge', names: ['merge'] };

  test('has a cone that ends at the throat and a diffuser with the area of its frustum', () => {
    const diffuser = diffuserPattern(kind, '304 stainless', 'mm')!;
    const wall = geometry.coneWall;
    const [small, large] = [VENTURI.throat!.bore + wall, 2 * geometry.outletBore + wall].map((d) => d / 2);
    const slant = Math.hypot(VENTURI.throat!.diffuserLength, large! - small!);
    expect(outlineArea(diffuser.outline)).toBeCloseTo(Math.PI * (small! + large!) * slant, 4);
    expect(conePattern(kind, '304 stainless', 'mm')!.notes.join()).toContain('to 46.00 mm bore');
    expect(diffuserPattern({ ...kind, geometry: { ...geometry, throat: null } }, '304 stainless', 'mm')).toBeNull();
  });

  test('has a saddle on the branch and an opening as long as its bore leans over the tail', () => {
    const [end, hole] = branchPatterns(kind, { wrap: 'outside', tab: 15, paper: 0, units: 'mm' });
    expect([end!.name, hole!.name]).toEqual(['collector-merge-branch', 'collector-merge-hole']);
    const { from, to } = outlineBounds(hole!.holes[0]!);
    expect(to[1] - from[1]).toBeCloseTo((branch.od - 2 * branch.wall) / Math.sin(branch.angle), 2);
    const onCone = { ...geometry, branch: { ...geometry.branch!, host: { kind: 'cone' as const, from: 0, to: 1 } } };
    expect(branchPatterns({ ...kind, geometry: onCone }, { wrap: 'outside', tab: 15, paper: 0, units: 'mm' })).toEqual(
      [],
    );
  });
});
