import { describe, expect, it } from 'vitest';
import { evaluate } from '../../src/geometry/solid/solid.js';
import { bar, box } from '../../src/geometry/solid/solid-shapes.js';
import { creased } from '../../src/page/view/creases.js';

const lengthOf = (edges: Float32Array): number => {
  let sum = 0;
  for (let i = 0; i < edges.length; i += 6) {
    sum += Math.hypot(edges[i + 3]! - edges[i]!, edges[i + 4]! - edges[i + 1]!, edges[i + 5]! - edges[i + 2]!);
  }
  return sum;
};

describe('a mesh made ready to be drawn', () => {
  it('keeps the faces of a box flat and draws its twelve edges', () => {
    const { normals, positions, edges } = creased(evaluate(box([0, 0, 0], [10, 20, 30])), 0.6);
    expect(positions).toHaveLength(12 * 9);
    expect(lengthOf(edges)).toBeCloseTo(4 * (10 + 20 + 30), 4);
    for (let i = 0; i < normals.length; i += 3) {
      expect([...normals.slice(i, i + 3)].map(Math.abs).sort()).toEqual([0, 0, 1]);
    }
  });

  it('rounds a bar and draws the rims of its ends alone', () => {
    const { normals, positions, edges } = creased(evaluate(bar(20, 0, 50)), 0.6);
    expect(lengthOf(edges) / (2 * 2 * Math.PI * 20)).toBeCloseTo(1, 2);
    for (let i = 0; i < normals.length; i += 3) {
      const [x, y, z] = normals.slice(i, i + 3) as unknown as [number, number, number];
      expect(Math.hypot(x, y, z)).toBeCloseTo(1, 5);
      if (Math.abs(z) > 0.5) expect(Math.abs(z)).toBeCloseTo(1, 5);
      // away from the axis, as the true surface
      else expect((x * positions[i]! + y * positions[i + 1]!) / 20).toBeGreaterThan(0.99);
    }
  });

  it('draws the rim of an open mesh', () => {
    const square = {
      positions: Float64Array.from([0, 0, 0, 4, 0, 0, 4, 4, 0, 0, 4, 0]),
      triangles: Uint32Array.from([0, 1, 2, 0, 2, 3]),
    };
    expect(lengthOf(creased(square, 0.6).edges)).toBeCloseTo(16, 6);
  });
});
