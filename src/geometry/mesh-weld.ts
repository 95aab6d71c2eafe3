import type { Mesh } from './mesh.js';

/** The same triangles on points of which no two have equal coordinates (-0 counts as 0). Points no triangle uses go. */
export function weldExact(mesh: Mesh): Mesh {
  const numberOf = new Map<string, number>();
  const positions: number[] = [];
  const triangles = mesh.triangles.map((i) => {
    const x = mesh.positions[3 * i]! + 0;
    const y = mesh.positions[3 * i + 1]! + 0;
    const z = mesh.positions[3 * i + 2]! + 0;
    const key = `${x} ${y} ${z}`;
    const known = numberOf.get(key);
    if (known !== undefined) return known;
    const fresh = positions.length / 3;
    numberOf.set(key, fresh);
    positions.push(x, y, z);
    return fresh;
  });
  return { positions: Float64Array.from(positions), triangles };
}
