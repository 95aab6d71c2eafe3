import { describe, expect, it } from 'vitest';
import { radians } from '../../../src/geometry/angle.js';
import {
  coveredArea,
  holeArea,
  hullOfRing,
  hullReach,
  type RingSection,
  transitionArea,
  transitionVolume,
} from '../../../src/geometry/merge/section.js';

/** Share of a fine grid of points that `inside` holds for, as an area, mm2: an independent, rough measure. */
function gridArea(reach: number, inside: (x: number, y: number) => boolean, steps = 400): number {
  const h = (2 * reach) / steps;
  let count = 0;
  for (let i = 0; i < steps; i++) {
    for (let j = 0; j < steps; j++) if (inside(-reach + (i + 0.5) * h, -reach + (j + 0.5) * h)) count++;
  }
  return count * h * h;
}

const inTube = ({ count, offset, tilt, radius }: RingSection): ((x: number, y: number) => boolean) => {
  const turns = Array.from({ length: count }, (_, i) => (2 * Math.PI * i) / count);
  const axes = turns.map((a) => [Math.cos(a), Math.sin(a)] as const);
  const k = Math.cos(tilt);
  return (x, y) => axes.some(([c, s]) => ((x * c + y * s - offset) * k) ** 2 + (y * c - x * s) ** 2 <= radius * radius);
};

describe('area that a ring of tubes covers', () => {
  it('is two circles less their lens for parallel tubes (lens formula)', () => {
    for (const d of [10, 25, 39, 45]) {
      const r = 20;
      const lens = d >= 2 * r ? 0 : 2 * r * r * Math.acos(d / 2 / r) - (d / 2) * Math.sqrt(4 * r * r - d * d);
      const area = coveredArea({ count: 2, offset: d / 2, tilt: 0, radius: r });
      expect(area).toBeCloseTo(2 * Math.PI * r * r - lens, 9);
    }
  });

  it('is n ellipses while they stand apart, and one when there is one', () => {
    const ellipse = (Math.PI * 400) / Math.cos(0.3);
    expect(coveredArea({ count: 5, offset: 60, tilt: 0.3, radius: 20 })).toBeCloseTo(5 * ellipse, 9);
    expect(coveredArea({ count: 1, offset: 0, tilt: 0, radius: 20 })).toBeCloseTo(400 * Math.PI, 9);
  });

  it('agrees with counting points, before, while and after the tubes close the hole between them', () => {
    for (const count of [2, 3, 4, 5, 6]) {
      for (const part of [0.7, 0.97, 1.05, 1.6]) {
        const ring = { count, offset: 20 * part, tilt: radians(20), radius: 20 };
        const counted = gridArea(60, inTube(ring));
        expect(Math.abs(coveredArea(ring) / counted - 1), `${count} at ${part}`).toBeLessThan(3e-3);
      }
    }
  });
});

describe('hole between the tubes', () => {
  it('is r2 (sqrt 3 - pi / 2) between three circles that touch and r2 (4 - pi) between four', () => {
    const three = { count: 3, offset: 20 / Math.sin(Math.PI / 3), tilt: 0, radius: 20 };
    expect(holeArea(three)).toBeCloseTo(400 * (Math.sqrt(3) - Math.PI / 2), 9);
    const four = { count: 4, offset: 20 / Math.sin(Math.PI / 4), tilt: 0, radius: 20 };
    expect(holeArea(four)).toBeCloseTo(400 * (4 - Math.PI), 9);
  });

  it('agrees with counting points, tilted tubes too, and is gone where they meet on the axis', () => {
    for (const count of [3, 4, 5, 6]) {
      for (const part of [1.05, 1.2, 1.5, 2.2]) {
        const ring = { count, offset: (20 / Math.cos(0.35)) * part, tilt: 0.35, radius: 20 };
        const apothem = ring.offset * Math.cos(Math.PI / count);
        const sides = Array.from({ length: count }, (_, i) => (2 * Math.PI * (i + 0.5)) / count).map(
          (a) => [Math.cos(a), Math.sin(a)] as const,
        );
        const inPolygon = (x: number, y: number): boolean => sides.every(([c, s]) => x * c + y * s <= apothem);
        const covered = inTube(ring);
        const counted = gridArea(50, (x, y) => inPolygon(x, y) && !covered(x, y), 800);
        expect(Math.abs(holeArea(ring) - counted), `${count} at ${part}`).toBeLessThan(0.01 * counted + 2);
      }
      const met = { count, offset: 20 / Math.cos(0.35), tilt: 0.35, radius: 20 };
      expect(holeArea(met)).toBeLessThan(1e-9);
      expect(holeArea({ ...met, offset: 15 })).toBeLessThan(1e-9);
    }
    expect(holeArea({ count: 2, offset: 30, tilt: 0.1, radius: 20 })).toBe(0);
  });
});

describe('hull of the tubes', () => {
  it('of circles is their polygon grown by the radius (Steiner): A + P r + pi r2', () => {
    for (const count of [2, 3, 4, 6]) {
      const [offset, r] = [25, 18];
      const side = 2 * offset * Math.sin(Math.PI / count);
      const polygon = (count * offset * offset * Math.sin((2 * Math.PI) / count)) / 2;
      const { area, perimeter } = hullOfRing({ count, offset, tilt: 0, radius: r });
      const round = count * side;
      expect(perimeter).toBeCloseTo(round + 2 * Math.PI * r, 7);
      expect(area).toBeCloseTo(polygon + round * r + Math.PI * r * r, 5);
      expect(hullReach({ count, offset, tilt: 0, radius: r }, 0)).toBeCloseTo(offset + r, 3);
      const between = count === 2 ? r : offset * Math.cos(Math.PI / count) + r;
      expect(hullReach({ count, offset, tilt: 0, radius: r }, Math.PI / count)).toBeCloseTo(between, 3);
    }
  });

  it('to a circle: a frustum from one tube, and sections whose integral is the volume', () => {
    const { area, perimeter } = hullOfRing({ count: 1, offset: 0, tilt: 0, radius: 30 });
    // frustum of a cone: pi h / 3 (R2 + R r + r2)
    expect(transitionVolume(area, perimeter, 20, 90)).toBeCloseTo((Math.PI * 90 * (900 + 600 + 400)) / 3, 6);
    const ring = hullOfRing({ count: 4, offset: 25, tilt: 0.2, radius: 18 });
    const at = (t: number): number => transitionArea(ring.area, ring.perimeter, 22, t);
    // Simpson's rule is exact for a quadratic
    expect((60 * (at(0) + 4 * at(0.5) + at(1))) / 6).toBeCloseTo(
      transitionVolume(ring.area, ring.perimeter, 22, 60),
      6,
    );
    expect(at(0)).toBeCloseTo(ring.area, 9);
    expect(at(1)).toBeCloseTo(Math.PI * 22 * 22, 9);
  });
});
