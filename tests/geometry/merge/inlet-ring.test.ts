import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { radians } from '../../../src/geometry/angle.js';
import { type Frame, frameAlong, WORLD } from '../../../src/geometry/frame.js';
import { inletFrames, ringRadius } from '../../../src/geometry/merge/inlet-ring.js';
import { along, angleBetween, cross, distance, dot, length, sub, unit } from '../../../src/geometry/vec3.js';

const anyFrame = fc
  .tuple(fc.double({ min: -3, max: 3, noNaN: true }), fc.double({ min: -1, max: 1, noNaN: true }))
  .map(([turn, lift]): Frame => frameAlong([100, -20, 300], unit([Math.cos(turn), Math.sin(turn), lift]), turn));

describe('ring of inlets', () => {
  it('has no radius for a single inlet, which is the frame itself', () => {
    expect(ringRadius(1, 42.4, 2)).toBe(0);
    expect(inletFrames(WORLD, 1, 0, 0.2)).toEqual([WORLD]);
  });

  it('refuses a count that is not a whole number from 1', () => {
    expect(() => ringRadius(0, 42, 2)).toThrow(RangeError);
    expect(() => inletFrames(WORLD, 2.5, 10, 0)).toThrow(RangeError);
  });

  it('keeps neighbouring centres od + gap apart and every axis on the collector axis', () => {
    fc.assert(
      fc.property(
        anyFrame,
        fc.integer({ min: 2, max: 8 }),
        fc.double({ min: 1, max: 30, noNaN: true }),
        (frame, n, a) => {
          const rho = ringRadius(n, 44.45, 1.5);
          const inlets = inletFrames(frame, n, rho, radians(a));
          for (let i = 0; i < n; i++) {
            const inlet = inlets[i]!;
            expect(distance(inlet.origin, inlets[(i + 1) % n]!.origin)).toBeCloseTo(45.95, 9);
            expect(angleBetween(inlet.z, frame.z)).toBeCloseTo(radians(a), 12);
            expect(length(sub(cross(inlet.x, inlet.y), inlet.z))).toBeLessThan(1e-12);
            const apex = along(inlet.origin, inlet.z, rho / Math.sin(radians(a)));
            const off = sub(apex, frame.origin);
            expect(length(cross(off, frame.z))).toBeLessThan(1e-9 * length(off));
            expect(dot(off, frame.z)).toBeGreaterThan(0);
          }
        },
      ),
      { seed: 11, numRuns: 60 },
    );
  });

  it('starts with inlet 1 on +x and is exact at quarter turns', () => {
    const [one, two, three] = inletFrames(WORLD, 4, 30, 0);
    expect(one!.origin).toEqual([30, 0, 0]);
    expect(two!.origin).toEqual([0, 30, 0]);
    expect(three!.origin).toEqual([-30, 0, 0]);
    expect(two!.z).toEqual([0, 0, 1]);
  });
});
