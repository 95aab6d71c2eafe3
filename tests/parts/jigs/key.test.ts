import { describe, expect, it } from 'vitest';
import { WORLD } from '../../../src/geometry/frame.js';
import { difference, minGap, overlapVolume, placed, volumeOf } from '../../../src/geometry/solid/solid.js';
import { bar } from '../../../src/geometry/solid/solid-shapes.js';
import { keyFor, SOCKET_RELIEF, socket, spigot } from '../../../src/parts/jigs/key.js';

const turned = (a: number) =>
  ({ ...WORLD, x: [Math.cos(a), Math.sin(a), 0], y: [-Math.sin(a), Math.cos(a), 0] }) as const;

describe('D-shaped key', () => {
  for (const [diameter, fit] of [
    [42.4, 0.2],
    [63.5, 0.3],
    [16, 0.2],
    [8, 0.25],
  ] as const) {
    it(`of a part of ${diameter} mm has ${fit} mm all round and leaves its wall`, () => {
      const key = keyFor(diameter, fit);
      expect(diameter / 2 - key.radius - fit).toBeGreaterThanOrEqual(Math.min(4, 0.22 * diameter) - 1e-9);
      const female = difference(bar(diameter / 2, 0, 30), socket(key, 10, WORLD));
      // the spigot alone, without the root that is sunk in the part that carries it
      const male = {
        kind: 'trimmed',
        plane: { point: [0, 0, 0.01], normal: [0, 0, 1] },
        solid: spigot(key, 10, WORLD),
      } as const;
      expect(overlapVolume(female, male)).toBe(0);
      const gap = minGap(female, male, 2);
      expect(gap).toBeGreaterThan(fit - 1e-4);
      expect(gap).toBeLessThan(fit + 0.03);
      const short = { ...male, solid: spigot(key, 10 + SOCKET_RELIEF + 0.1, WORLD) };
      expect(overlapVolume(female, short)).toBeGreaterThan(0);
    });
  }

  it('goes together in one clocking only', () => {
    const key = keyFor(42.4, 0.2);
    const female = difference(bar(21.2, 0, 30), socket(key, 10, WORLD));
    for (let k = 1; k < 36; k++) {
      expect(overlapVolume(female, placed(spigot(key, 10, WORLD), turned((k * Math.PI) / 18)))).toBeGreaterThan(1);
    }
  });

  it('has the volume of a circle less its segment, as near as 64 chords are', () => {
    const key = keyFor(42.4, 0.2);
    const { radius: r, flat: f } = key;
    const segment = r * r * Math.acos(f / r) - f * Math.sqrt(r * r - f * f);
    const peg = volumeOf(spigot(key, 9, WORLD)) / 10; // 9 mm and 1 mm sunk, the tip's lead-in taken off
    expect(peg / (Math.PI * r * r - segment)).toBeGreaterThan(0.985);
    expect(peg / (Math.PI * r * r - segment)).toBeLessThan(1);
  });
});
