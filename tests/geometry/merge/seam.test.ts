import { describe, expect, it } from 'vitest';
import { mergeSeams } from '../../../src/geometry/merge/seam.js';

interface Ring {
  readonly count: number;
  readonly offset: number;
  readonly tilt: number;
  readonly radius: number;
}

/** The outer arm of one seam as a polyline: at each height the distance from the axis where a tube's skin meets the plane half-way. */
function sampled({ count, offset, tilt, radius }: Ring, end: number): number {
  const [cb, sb] = [Math.cos(Math.PI / count), Math.sin(Math.PI / count)];
  const c2 = Math.cos(tilt) ** 2;
  const a = cb * cb * c2 + sb * sb;
  const away = (z: number): number => {
    const centre = offset - z * Math.tan(tilt);
    const b = -2 * centre * cb * c2;
    const root = b * b - 4 * a * (centre * centre * c2 - radius * radius);
    return root < 0 ? Number.NaN : (-b + Math.sqrt(root)) / (2 * a);
  };
  let [low, high] = [-1000, end];
  if (Number.isNaN(away(end))) return 0;
  for (let i = 0; i < 200; i++) {
    const middle = (low + high) / 2;
    if (Number.isNaN(away(middle))) low = middle;
    else high = middle;
  }
  const n = 40_000;
  // closer together near the touching point, where the ellipse begins square to the axis
  const points = Array.from({ length: n + 1 }, (_, i) => {
    const z = high + (end - high) * (i / n) ** 2;
    return [away(z), z] as const;
  });
  return points.slice(1).reduce((sum, p, i) => sum + Math.hypot(p[0] - points[i]![0], p[1] - points[i]![1]), 0);
}

describe('seams of a merge', () => {
  it.each([
    [2, 23.2, 8, 20.4, 130],
    [3, 26.8, 8, 20.4, 120],
    [4, 32.8, 8, 20.4, 120],
    [4, 32.8, 15, 20.4, 60],
    [6, 47, 5, 20.4, 250],
  ])('%i tubes %d mm out, %d deg: as long as the sampled curve', (count, offset, deg, radius, end) => {
    const ring = { count, offset, tilt: (deg * Math.PI) / 180, radius };
    const seam = sampled(ring, end);
    expect(seam).toBeGreaterThan(20);
    expect(mergeSeams(ring, end) / count).toBeCloseTo(seam, 4);
  });

  it('of a four into one of 42.4 mm tubes run a little longer than the axis from the touching on', () => {
    // tubes touch about 21 mm in and the merge ends at 122 mm: each seam is about as long as what lies between, and rises outwards
    const each = mergeSeams({ count: 4, offset: 32.8, tilt: (8 * Math.PI) / 180, radius: 20.4 }, 121.9) / 4;
    expect(each).toBeGreaterThan(90);
    expect(each).toBeLessThan(125);
  });

  it('are none of one tube, of parallel ones, and of tubes that do not touch', () => {
    expect(mergeSeams({ count: 1, offset: 0, tilt: 0.1, radius: 20 }, 100)).toBe(0);
    expect(mergeSeams({ count: 4, offset: 32, tilt: 0, radius: 20 }, 100)).toBe(0);
    expect(mergeSeams({ count: 4, offset: 32, tilt: 0.1, radius: 20 }, 1)).toBe(0);
  });

  it('grow with the end and with nothing else when all is scaled', () => {
    const ring = { count: 4, offset: 32.8, tilt: 0.14, radius: 20.4 };
    const double = { ...ring, offset: 65.6, radius: 40.8 };
    expect(mergeSeams(double, 200)).toBeCloseTo(2 * mergeSeams(ring, 100), 8);
    expect(mergeSeams(ring, 101)).toBeGreaterThan(mergeSeams(ring, 100) + 4);
  });
});
