import type { Mesh } from '../../src/geometry/mesh/mesh.js';
import type { Reach } from '../../src/geometry/scan/field.js';
import type { Vec3 } from '../../src/geometry/vec3.js';

/** Uniform numbers from 0 to 1 from a seed (mulberry32). */
export function randomFrom(seed: number): () => number {
  let a = seed >>> 0;
  return () => {
    a = (a + 0x6d2b79f5) >>> 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** A rectangular patch of a surface as 2 n m triangles, its points off by up to `rough` mm. */
function patch(n: number, m: number, rough: number, random: () => number, at: (u: number, v: number) => Vec3): Mesh {
  const positions: number[] = [];
  const triangles: number[] = [];
  for (let j = 0; j <= m; j++) {
    for (let i = 0; i <= n; i++) {
      for (const c of at(i / n, j / m)) positions.push(c + (2 * random() - 1) * rough);
    }
  }
  for (let j = 0; j < m; j++) {
    for (let i = 0; i < n; i++) {
      const a = j * (n + 1) + i;
      triangles.push(a, a + 1, a + n + 2, a, a + n + 2, a + n + 1);
    }
  }
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}

export function together(...meshes: readonly Mesh[]): Mesh {
  const positions: number[] = [];
  const triangles: number[] = [];
  for (const m of meshes) {
    const base = positions.length / 3;
    for (const v of m.positions) positions.push(v);
    for (const i of m.triangles) triangles.push(base + i);
  }
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}

/** The space the scan below is made for. */
export const BAY: Reach = { from: [-80, -330, 0], to: [580, 80, 400] };

/** An open scan of a bay of about 8 n n triangles, rough by 0.1 mm: a wavy floor with a rail, a wavy wall, a ball and a hose. */
export function bayScan(n: number, seed: number): Mesh {
  const random = randomFrom(seed);
  const turn = 2 * Math.PI;
  const made = (at: (u: number, v: number) => Vec3): Mesh => patch(n, n, 0.1, random, at);
  return together(
    made((u, v) => {
      const rail = Math.abs(u - 0.5) < 0.1 ? 60 : 0;
      return [-100 + u * 700, -350 + 20 * Math.sin(u * 20) * Math.cos(v * 15) + rail, -50 + v * 500];
    }),
    made((u, v) => [-100 + u * 700, -350 + v * 450, 420 + 25 * Math.sin(u * 9 + v * 7)]),
    made((u, v) => {
      const b = (v - 0.5) * Math.PI;
      return [
        420 + 60 * Math.cos(u * turn) * Math.cos(b),
        -150 + 60 * Math.sin(u * turn) * Math.cos(b),
        200 + 60 * Math.sin(b),
      ];
    }),
    made((u, v) => [-100 + 700 * v, -180 + 18 * Math.cos(u * turn), 330 + 18 * Math.sin(u * turn)]),
  );
}
