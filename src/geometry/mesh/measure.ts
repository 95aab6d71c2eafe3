import { cross, length, sub, type Vec3 } from '../vec3.js';
import type { Mesh } from './mesh.js';

/** Point of a mesh by its number, mm. */
export const pointOf = (mesh: Mesh, i: number): Vec3 => [
  mesh.positions[3 * i]!,
  mesh.positions[3 * i + 1]!,
  mesh.positions[3 * i + 2]!,
];

/** The three corners of a triangle by its number, mm. */
export const cornersOf = (mesh: Mesh, t: number): readonly [Vec3, Vec3, Vec3] => [
  pointOf(mesh, mesh.triangles[3 * t]!),
  pointOf(mesh, mesh.triangles[3 * t + 1]!),
  pointOf(mesh, mesh.triangles[3 * t + 2]!),
];

/** Number of triangles. */
export const triangleCount = (mesh: Mesh): number => mesh.triangles.length / 3;

/** Enclosed volume, mm3, by the divergence theorem: positive when the triangles face outwards. */
export function meshVolume(mesh: Mesh): number {
  let six = 0;
  for (let t = 0; t < triangleCount(mesh); t++) six += sixVolume(mesh, t);
  return six / 6;
}

/** Area of one triangle, mm2. */
export function triangleArea([a, b, c]: readonly [Vec3, Vec3, Vec3]): number {
  return length(cross(sub(b, a), sub(c, a))) / 2;
}

/** Lowest and highest corner of the box round a mesh, mm. */
export interface Bounds {
  readonly low: Vec3;
  readonly high: Vec3;
}

/** Throws RangeError for a mesh without points. */
export function meshBounds(mesh: Mesh): Bounds {
  if (mesh.positions.length === 0) throw new RangeError('a mesh without points has no bounds');
  const low = [Infinity, Infinity, Infinity];
  const high = [-Infinity, -Infinity, -Infinity];
  for (let i = 0; i < mesh.positions.length; i++) {
    const v = mesh.positions[i]!;
    if (v < low[i % 3]!) low[i % 3] = v;
    if (v > high[i % 3]!) high[i % 3] = v;
  }
  return { low: [low[0]!, low[1]!, low[2]!], high: [high[0]!, high[1]!, high[2]!] };
}

/** One closed skin of a mesh: triangles that hang together by shared points. */
export interface Shell {
  readonly triangles: number;
  /** mm3; negative for the skin of a closed hollow. */
  readonly volume: number;
  /** Number of ways through (0 ball, 1 pipe), from Euler's V - E + F = 2 - 2 g; whole only for a closed skin. */
  readonly genus: number;
}

/** The skins of a mesh, largest first. A part of one piece without hollows has exactly one. */
export function shellsOf(mesh: Mesh): Shell[] {
  const root = Int32Array.from({ length: mesh.positions.length / 3 }, (_, i) => i);
  const find = (i: number): number => {
    let r = i;
    while (root[r] !== r) r = root[r] = root[root[r]!]!;
    return r;
  };
  for (let t = 0; t < mesh.triangles.length; t += 3) {
    const a = find(mesh.triangles[t]!);
    root[find(mesh.triangles[t + 1]!)] = a;
    root[find(mesh.triangles[t + 2]!)] = a;
  }
  const points = mesh.positions.length / 3;
  const [counts, sixes, uses] = [new Uint32Array(points), new Float64Array(points), new Uint32Array(points)];
  const used = new Uint8Array(points);
  for (let t = 0; t < triangleCount(mesh); t++) {
    const key = find(mesh.triangles[3 * t]!);
    counts[key]!++;
    sixes[key]! += sixVolume(mesh, t);
    for (let k = 0; k < 3; k++) used[mesh.triangles[3 * t + k]!] = 1;
  }
  // a point belongs to one skin only
  for (let i = 0; i < points; i++) if (used[i] === 1) uses[find(i)]!++;
  const shells: Shell[] = [];
  counts.forEach((triangles, key) => {
    if (triangles === 0) return;
    shells.push({ triangles, volume: sixes[key]! / 6, genus: 1 - (uses[key]! - (3 * triangles) / 2 + triangles) / 2 });
  });
  return shells.sort((a, b) => b.volume - a.volume);
}

/** Six times the volume of the tetrahedron from the origin to a triangle, mm3. */
function sixVolume({ positions: p, triangles }: Mesh, t: number): number {
  const [a, b, c] = [3 * triangles[3 * t]!, 3 * triangles[3 * t + 1]!, 3 * triangles[3 * t + 2]!];
  const [bx, by, bz] = [p[b]!, p[b + 1]!, p[b + 2]!];
  const [cx, cy, cz] = [p[c]!, p[c + 1]!, p[c + 2]!];
  return p[a]! * (by * cz - bz * cy) + p[a + 1]! * (bz * cx - bx * cz) + p[a + 2]! * (bx * cy - by * cx);
}
