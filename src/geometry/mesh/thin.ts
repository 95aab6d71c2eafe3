import { cross, length, sub, type Vec3 } from '../vec3.js';
import type { Mesh } from './mesh.js';

/**
 * A mesh for looking at, of at most `most` triangles as far as that can be had: points of one cell of a cubic grid become their middle,
 * and triangles that collapse or fall together go. Open meshes stay open. `moved` is what no point was moved further than, mm; 0
 * where the mesh was small enough already.
 */
export function thinnedMesh(mesh: Mesh, most: number): { readonly mesh: Mesh; readonly moved: number } {
  if (mesh.triangles.length / 3 <= most) return { mesh, moved: 0 };
  // a smooth surface crosses about as many cells as it has times their face, and leaves two triangles in each
  for (let cell = Math.sqrt((2 * surfaceArea(mesh)) / most) || LEAST_CELL; ; cell *= GROWTH) {
    const thin = clustered(mesh, cell);
    if (thin.triangles.length / 3 <= most) return { mesh: thin, moved: cell * Math.sqrt(3) };
  }
}

/** The grid of a mesh without any area, mm, and how much coarser the next grid is when one was too fine. */
const LEAST_CELL = 0.5;
const GROWTH = 1.25;

/** Cells along one axis; more would not fit a number beside those of the others. */
const MOST_CELLS = 2 ** 17;

function surfaceArea(mesh: Mesh): number {
  let area = 0;
  for (let t = 0; t < mesh.triangles.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => pointOf(mesh, mesh.triangles[t + k]!)) as [Vec3, Vec3, Vec3];
    area += length(cross(sub(b, a), sub(c, a))) / 2;
  }
  return area;
}

const pointOf = ({ positions }: Mesh, i: number): Vec3 => [
  positions[3 * i]!,
  positions[3 * i + 1]!,
  positions[3 * i + 2]!,
];

function clustered({ positions, triangles }: Mesh, cell: number): Mesh {
  const clusters = new Map<number, number>();
  const cellAt = (v: number): number => Math.floor(v / cell) + MOST_CELLS / 2;
  const sums: number[] = [];
  const counts: number[] = [];
  const clusterOf = new Int32Array(positions.length / 3).fill(-1);
  for (const i of triangles) {
    if (clusterOf[i]! >= 0) continue;
    const [x, y, z] = [positions[3 * i]!, positions[3 * i + 1]!, positions[3 * i + 2]!];
    const key = (cellAt(x) * MOST_CELLS + cellAt(y)) * MOST_CELLS + cellAt(z);
    const at = clusters.get(key) ?? counts.length;
    if (at === counts.length) {
      clusters.set(key, at);
      counts.push(0);
      sums.push(0, 0, 0);
    }
    counts[at]!++;
    for (let k = 0; k < 3; k++) sums[3 * at + k]! += positions[3 * i + k]!;
    clusterOf[i] = at;
  }
  const kept = new Map<string, readonly number[]>();
  for (let t = 0; t < triangles.length; t += 3) {
    const corners = [0, 1, 2].map((k) => clusterOf[triangles[t + k]!]!);
    const [a, b, c] = corners as [number, number, number];
    if (a === b || b === c || c === a) continue;
    const key = [...corners].sort((x, y) => x - y).join(' ');
    if (!kept.has(key)) kept.set(key, corners);
  }
  return {
    positions: Float64Array.from(sums, (v, i) => v / counts[Math.floor(i / 3)]!),
    triangles: Uint32Array.from([...kept.values()].flat()),
  };
}
