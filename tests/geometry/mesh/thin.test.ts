import { describe, expect, it } from 'vitest';
import type { Mesh } from '../../../src/geometry/mesh/mesh.js';
import { thinnedMesh } from '../../../src/geometry/mesh/thin.js';

/** A wavy sheet of 2 n n triangles, 300 mm wide: open, as scans are. */
function sheet(n: number): Mesh {
  const positions: number[] = [];
  const triangles: number[] = [];
  for (let j = 0; j <= n; j++)
    for (let i = 0; i <= n; i++) positions.push((300 * i) / n, (300 * j) / n, 8 * Math.sin((6 * i) / n));
  for (let j = 0; j < n; j++)
    for (let i = 0; i < n; i++) {
      const a = j * (n + 1) + i;
      triangles.push(a, a + 1, a + n + 2, a, a + n + 2, a + n + 1);
    }
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}

describe('a scan thinned to be looked at', () => {
  it('leaves a small one alone', () => {
    const small = sheet(10);
    expect(thinnedMesh(small, 200)).toEqual({ mesh: small, moved: 0 });
  });

  it('keeps to its number of triangles and to how far it says points move', () => {
    const { mesh, moved } = thinnedMesh(sheet(120), 2000);
    expect(mesh.triangles.length / 3).toBeLessThanOrEqual(2000);
    // most of what is allowed is used
    expect(mesh.triangles.length / 3).toBeGreaterThan(800);
    expect(moved).toBeLessThan(30);
    for (let i = 0; i < mesh.positions.length; i += 3) {
      const [x, , z] = mesh.positions.slice(i, i + 3) as unknown as [number, number, number];
      expect(Math.abs(z - 8 * Math.sin((6 * x) / 300))).toBeLessThan(moved);
    }
  });

  it('covers what it covered', () => {
    const { mesh, moved } = thinnedMesh(sheet(120), 2000);
    const xs = mesh.positions.filter((_, i) => i % 3 === 0);
    expect(Math.min(...xs)).toBeLessThan(moved);
    expect(Math.max(...xs)).toBeGreaterThan(300 - moved);
    for (const i of mesh.triangles) expect(i).toBeLessThan(mesh.positions.length / 3);
  });

  it('ends for a mesh whose triangles have no area', () => {
    const line = { positions: new Float64Array(9), triangles: Uint32Array.from([0, 1, 2, 0, 1, 2]) };
    expect(thinnedMesh(line, 1).mesh.triangles).toHaveLength(0);
  });
});
