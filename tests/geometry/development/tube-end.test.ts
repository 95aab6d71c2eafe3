import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { radians } from '../../../src/geometry/angle.js';
import { hostCut, saddleHole } from '../../../src/geometry/development/saddle.js';
import { type CutSurface, heightAt, tubeEnd } from '../../../src/geometry/development/tube-end.js';
import { unrolledEdge } from '../../../src/geometry/development/unrolled-edge.js';
import { outlineArea } from '../../../src/geometry/outline/measure.js';
import { pointAlong, type Side, sidesOf } from '../../../src/geometry/outline/sides.js';
import { validateOutline } from '../../../src/geometry/outline/valid.js';
import { heightAbove, type Plane } from '../../../src/geometry/plane.js';
import { dot, length, sub, unit, type Vec3 } from '../../../src/geometry/vec3.js';

const TOLERANCE = 0.003;
const plane = (point: Vec3, normal: Vec3): CutSurface => ({ kind: 'plane', plane: { point, normal: unit(normal) } });
const mitre = (angle: number): CutSurface => plane([0, 0, 0], [Math.sin(angle), 0, -Math.cos(angle)]);

/** Points of a developed edge, inside arcs too, laid back on the tube. */
const wrapped = (sides: readonly Side[], seam: number, paper: number, radius: number): Vec3[] =>
  sides.flatMap((s) =>
    Array.from({ length: 21 }, (_, k): Vec3 => {
      const [x, y] = pointAlong(s, k / 20);
      const phi = seam + x / paper;
      return [radius * Math.cos(phi), radius * Math.sin(phi), y];
    }),
  );

describe('a mitre', () => {
  test('is one cosine: r tan(a) cos(phi)', () => {
    // cut-the-knot.org, unfolding; mathcentral.uregina.ca, a pipe of radius 100 cut at 45 degrees has amplitude 100
    const end = tubeEnd([mitre(Math.PI / 4)], 100);
    for (const phi of [0, 1, 2, 3, 4, 5, 6]) expect(end.height(phi)).toBeCloseTo(100 * Math.cos(phi), 9);
    const eighth = tubeEnd([mitre(radians(22.5))], 1);
    // closed form at 0, 30, 60 and 90 degrees
    expect([0, 30, 60, 90].map((d) => eighth.height(radians(d)).toFixed(5))).toEqual([
      '0.41421',
      '0.35872',
      '0.20711',
      '0.00000',
    ]);
  });

  test('laid back on the tube its edge lies on the plane within 0.01 mm, for any plane, size and seam', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 5, max: 150, noNaN: true }),
        fc.double({ min: -1.2, max: 1.2, noNaN: true }),
        fc.double({ min: 0, max: 6.2, noNaN: true }),
        fc.double({ min: 0, max: 6.2, noNaN: true }),
        (radius, tilt, way, seam) => {
          const normal: Vec3 = [Math.sin(tilt) * Math.cos(way), Math.sin(tilt) * Math.sin(way), -Math.cos(tilt)];
          const cut: Plane = { point: [3, -2, 40], normal };
          const { sides, deviation } = unrolledEdge(
            tubeEnd([{ kind: 'plane', plane: cut }], radius),
            seam,
            radius,
            TOLERANCE,
          );
          expect(deviation).toBeLessThanOrEqual(TOLERANCE);
          for (const p of wrapped(sides, seam, radius, radius))
            expect(Math.abs(heightAbove(cut, p))).toBeLessThan(0.01);
        },
      ),
      { numRuns: 60 },
    );
  });

  test('a plane along the tube is refused', () => {
    expect(() => tubeEnd([plane([0, 0, 0], [1, 0, 0])], 20).height(0)).toThrow('cuts no end');
  });
});

describe('an end cut by two planes', () => {
  const [a, b] = [mitre(0.5), plane([0, 0, 5], [-Math.sin(0.7), 0.3, -Math.cos(0.7)])];
  const end = tubeEnd([a, b], 25);

  test('is the lower of the two, with a corner where they meet', () => {
    for (let phi = 0; phi < 7; phi += 0.1) {
      expect(end.height(phi)).toBe(Math.min(heightAt(a, 25, phi), heightAt(b, 25, phi)));
    }
    expect(end.corners).toHaveLength(2);
    for (const phi of end.corners) expect(heightAt(a, 25, phi)).toBeCloseTo(heightAt(b, 25, phi), 9);
  });

  test('its outline has its corners there', () => {
    const { sides } = unrolledEdge(end, 0, 25, TOLERANCE);
    for (const phi of end.corners) {
      const nearest = Math.min(...sides.map((s) => Math.hypot(s.from[0] - 25 * phi, s.from[1] - end.height(phi))));
      expect(nearest).toBeLessThan(1e-9);
    }
  });
});

describe('a saddle', () => {
  const square = (r: number, R: number): number => {
    const { height } = tubeEnd([hostCut({ angle: Math.PI / 2, offset: 0, hostRadius: R })], r);
    return height(0) - height(Math.PI / 2);
  };

  test('published: 4 1/2 on 6 5/8 in drops 0.8814 in', () => {
    // calcady.com, pipe saddle coping: R - sqrt(R2 - r2). The height at the crown is that of the host, so the drop is negative upwards
    expect((-square(2.25, 3.3125)).toFixed(4)).toBe('0.8814');
  });

  test('equal tubes: as deep as the radius, with two corners', () => {
    // formulafactory.tools, tube notcher: 0.75 on 0.75 in
    expect(-square(0.75, 0.75)).toBeCloseTo(0.75, 12);
    const { corners } = tubeEnd([hostCut({ angle: Math.PI / 2, offset: 0, hostRadius: 30 })], 30);
    expect(corners.map((c) => c / Math.PI)).toEqual([expect.closeTo(0.5, 6), expect.closeTo(1.5, 6)]);
  });

  test('at an angle it adds r cos(phi) / tan(angle)', () => {
    // tools.gera.services, pipe bevelling; the drop itself over the sine of the angle
    const angle = radians(60);
    const { height } = tubeEnd([hostCut({ angle, offset: 0, hostRadius: 40 })], 20);
    for (let phi = 0; phi < 6; phi += 0.5) {
      const drop = Math.sqrt(40 ** 2 - (20 * Math.sin(phi)) ** 2) / Math.sin(angle);
      expect(height(phi)).toBeCloseTo((20 * Math.cos(phi)) / Math.tan(angle) - drop, 9);
    }
  });

  test('end and hole laid back lie on the skins of both tubes within 0.01 mm, for any size, angle and offset', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 20, max: 80, noNaN: true }),
        fc.double({ min: 0.15, max: 1, noNaN: true }),
        fc.double({ min: 30, max: 150, noNaN: true }),
        fc.double({ min: -1, max: 1, noNaN: true }),
        (hostRadius, share, degrees, aside) => {
          const r = hostRadius * share;
          const saddle = { hostRadius, angle: radians(degrees), offset: aside * (hostRadius - r) };
          const { point, axis } = hostCut(saddle);
          const fromHost = (p: Vec3): number => {
            const d = sub(p, point);
            return length(sub(d, axis.map((u) => u * dot(d, axis)) as unknown as Vec3)) - hostRadius;
          };
          const end = unrolledEdge(tubeEnd([hostCut(saddle)], r), 0.3, r, TOLERANCE);
          expect(end.deviation).toBeLessThanOrEqual(TOLERANCE);
          for (const p of wrapped(end.sides, 0.3, r, r)) expect(Math.abs(fromHost(p))).toBeLessThan(0.01);
          const hole = saddleHole(saddle, r, hostRadius, TOLERANCE);
          validateOutline(hole.outline);
          expect(hole.deviation).toBeLessThanOrEqual(TOLERANCE);
          const [c, s] = [Math.cos(saddle.angle), Math.sin(saddle.angle)];
          for (const side of sidesOf(hole.outline)) {
            for (let k = 0; k < 20; k++) {
              const [x, y] = pointAlong(side, k / 20);
              const [f, left] = [hostRadius * Math.cos(x / hostRadius), hostRadius * Math.sin(x / hostRadius)];
              // facing (c, 0, -s), left of it about the axis (0, 1, 0), along (s, 0, c)
              const p: Vec3 = [f * c + y * s, saddle.offset + left, -f * s + y * c];
              expect(Math.abs(Math.hypot(p[0], p[1]) - r)).toBeLessThan(0.01);
            }
          }
        },
      ),
      { numRuns: 40 },
    );
  });

  test('a hole much smaller than the host is nearly the circle', () => {
    const { outline } = saddleHole({ angle: Math.PI / 2, offset: 0, hostRadius: 1000 }, 10, 1000, TOLERANCE);
    expect(outlineArea(outline)).toBeCloseTo(Math.PI * 100, 1);
  });

  test('a branch that passes beside the host is refused', () => {
    const graze = { angle: Math.PI / 2, offset: 25, hostRadius: 30 };
    expect(() => tubeEnd([hostCut(graze)], 10).height(-Math.PI / 2)).toThrow('passes beside');
    expect(tubeEnd([hostCut(graze)], 4).height(-Math.PI / 2)).toBeLessThan(0);
    expect(() => saddleHole(graze, 10, 30, TOLERANCE)).toThrow('passes beside');
  });
});

describe('an end on a cone', () => {
  const cone: CutSurface = {
    kind: 'round',
    point: [2, 3, 60],
    axis: unit([0.9, 0.1, 0.4]),
    radius: 35,
    taper: radians(9),
  };

  test('every point is as far from the axis as the cone is thick there', () => {
    const { sides, deviation } = unrolledEdge(tubeEnd([cone], 18), 0, 18, TOLERANCE);
    expect(deviation).toBeLessThanOrEqual(TOLERANCE);
    for (const p of wrapped(sides, 0, 18, 18)) {
      const d = sub(p, cone.point);
      const s = dot(d, cone.axis);
      const off = Math.sqrt(dot(d, d) - s * s) - (cone.radius + s * Math.tan(cone.taper));
      expect(Math.abs(off)).toBeLessThan(0.01);
    }
  });
});
