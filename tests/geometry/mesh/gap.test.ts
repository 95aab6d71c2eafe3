import { describe, expect, it } from 'vitest';
import { frameAlong, WORLD } from '../../../src/geometry/frame.js';
import { meshGap, surfaceTree } from '../../../src/geometry/mesh/gap.js';
import type { Mesh } from '../../../src/geometry/mesh/mesh.js';
import { meetingsOf } from '../../../src/geometry/solid/mesh-meetings.js';
import { evaluate, minGap, placed, type Solid, solidOf } from '../../../src/geometry/solid/solid.js';
import { bar, box } from '../../../src/geometry/solid/solid-shapes.js';
import { unit } from '../../../src/geometry/vec3.js';

const cube = (x: number, size = 10): Mesh => evaluate(box([x, 0, 0], [x + size, size, size]));
const gap = (a: Mesh, b: Mesh, within = 10): number => meshGap(surfaceTree(a), surfaceTree(b), within);

/** A bar somewhere, leaning somehow: many long thin triangles that lie across the axes. */
const leaning = (k: number): Solid =>
  placed(
    bar(3 + (k % 3), -30, 30),
    frameAlong([9 * Math.sin(k), 9 * Math.cos(2 * k), 4 * k], unit([Math.sin(3 * k), 0.4, Math.cos(k)])),
  );

describe('distance of two surfaces', () => {
  it('is that of two cubes, as far as it is looked for, and nothing where they cross', () => {
    expect(gap(cube(0), cube(13))).toBeCloseTo(3, 12);
    expect(gap(cube(0), cube(30))).toBe(10);
    expect(gap(cube(0), cube(5))).toBe(0);
    expect(gap(cube(0), cube(10))).toBe(0);
  });

  it('is the same as the kernel finds, either way round', () => {
    for (let k = 0; k < 12; k++) {
      const [a, b] = [evaluate(leaning(k)), evaluate(leaning(k + 5))];
      const found = gap(a, b, 25);
      expect(found).toBeCloseTo(minGap(solidOf(a), solidOf(b), 25), 3);
      expect(gap(b, a, 25)).toBeCloseTo(found, 9);
    }
  });

  it('moves the second first, and stops where it is told that it is near enough', () => {
    const [a, b] = [surfaceTree(cube(0)), surfaceTree(cube(13))];
    expect(meshGap(a, b, 10, { shift: [2, 0, 0] })).toBeCloseTo(5, 12);
    expect(meshGap(a, b, 10, { shift: [-4, 0, 0] })).toBe(0);
    expect(meshGap(a, b, 10, { enough: 4 })).toBeLessThan(4);
  });

  it('knows surfaces alone: what is inside is as far as its skin', () => {
    const inner = evaluate(box([4, 4, 4], [6, 6, 6]));
    expect(gap(cube(0), inner)).toBeCloseTo(4, 12);
  });
});

describe('meetings of many bodies', () => {
  const inner = evaluate(box([4, 4, 4], [6, 6, 6]));
  const meshes = [
    cube(0),
    cube(9),
    cube(10.4),
    inner,
    evaluate(placed(box([0, 0, 0], [10, 10, 10]), { ...WORLD, origin: [-10, 0, 0] })),
  ];
  const meeting = (a: number, b: number) => meetingsOf(meshes, [{ a, b, within: 0.5 }])[0]!;

  it('share what they share, also one that lies wholly inside another', () => {
    expect(meeting(0, 1).shared).toBeCloseTo(100, 2);
    expect(meeting(0, 3).shared).toBeCloseTo(8, 4);
    expect(meeting(3, 0).shared).toBeCloseTo(8, 4);
    expect(meeting(0, 1).gap).toBe(0);
  });

  it('share nothing where they touch or stand apart', () => {
    expect(meeting(0, 4)).toEqual({ shared: 0, gap: 0 });
    expect(meeting(0, 2).shared).toBe(0);
    expect(meeting(0, 2).gap).toBeCloseTo(0.4, 6);
    expect(meeting(2, 4).gap).toBe(0.5);
  });

  it('with a shift are distances alone', () => {
    const [moved] = meetingsOf(meshes, [{ a: 0, b: 1, shift: [1.2, 0, 0], within: 0.5 }]);
    expect(moved!.shared).toBe(0);
    expect(moved!.gap).toBeCloseTo(0.2, 6);
  });
});
