import { describe, expect, it } from 'vitest';
import { pointFrom } from '../../../src/geometry/frame.js';
import { branchFrame, leastBranch, saddleSpan } from '../../../src/geometry/merge/branch-axis.js';
import { cross, dot, length, sub } from '../../../src/geometry/vec3.js';

describe('branch of a pipe', () => {
  it('stands at its angle to the pipe, in the plane of its clocking, with a right-handed frame', () => {
    for (const angle of [0.4, Math.PI / 4, Math.PI / 2]) {
      for (const clocking of [0, 1.1, -2.5]) {
        const f = branchFrame(120, angle, clocking);
        expect(Math.acos(f.z[2])).toBeCloseTo(angle, 12);
        expect(Math.atan2(f.z[1], f.z[0])).toBeCloseTo(clocking, 12);
        expect(length(sub(cross(f.x, f.y), f.z))).toBeLessThan(1e-12);
        expect(dot(f.x, [0, 0, 1])).toBeCloseTo(0, 12);
      }
    }
  });

  it('meets a round pipe first and last where its span says: no point of the saddle lies beyond', () => {
    for (const [angle, r, host] of [
      [Math.PI / 4, 19, 30],
      [0.6, 12, 30],
      [Math.PI / 2, 25, 25],
    ] as const) {
      const f = branchFrame(100, angle, 0.7);
      const zs = Array.from({ length: 720 }, (_, i) => {
        const a = (2 * Math.PI * i) / 720;
        // along a generator to the pipe's skin
        let [low, high] = [0, 400];
        const at = (t: number) => pointFrom(f, [r * Math.cos(a), r * Math.sin(a), t]);
        for (let k = 0; k < 80; k++) {
          const mid = (low + high) / 2;
          const [x, y] = at(mid);
          if (Math.hypot(x, y) < host) low = mid;
          else high = mid;
        }
        return at(low)[2];
      });
      const [from, to] = saddleSpan(100, angle, r, host);
      expect(Math.min(...zs)).toBeCloseTo(from, 3);
      expect(Math.max(...zs)).toBeCloseTo(to, 3);
      // the end face of the shortest branch stands clear by what was asked for
      const l = leastBranch(angle, r, host, 5);
      const ends = Array.from({ length: 360 }, (_, i) => {
        const a = (2 * Math.PI * i) / 360;
        const [x, y] = pointFrom(f, [r * Math.cos(a), r * Math.sin(a), l]);
        return (x * Math.cos(0.7) + y * Math.sin(0.7)) / 1;
      });
      expect(Math.min(...ends)).toBeCloseTo(host + 5, 6);
    }
  });
});
