import { depthInHull, pointHull } from '../outline/point-hull.js';
import type { Vec2 } from '../vec2.js';
import type { Vec3 } from '../vec3.js';
import type { Mesh } from './mesh.js';

/** Heights above the bed below this, mm, are on it. */
const ON_BED = 1e-4;

/** A mesh as it stands on z = 0 with the whole of it above. */
export interface Stand {
  /** Area that lies flat on the bed, mm2. */
  readonly foot: number;
  /** How far inside the hull of the foot the middle of mass stands, mm; negative when it would tip. */
  readonly steady: number;
  /** Area that faces down and leans out further than the limit, mm2, what lies on the bed left out. */
  readonly overhang: number;
}

/**
 * How a closed mesh stands, `limit` the lean from upright, rad, a printer bridges without support: a wall leans by 0 and a
 * ceiling by a quarter turn. Ceilings that could be bridged count too.
 */
export function standOf(mesh: Mesh, limit: number): Stand {
  const { positions: p, triangles } = mesh;
  const lean = Math.sin(limit) * (1 + 1e-9);
  let [foot, overhang] = [0, 0];
  const under: Vec2[] = [];
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t]!, 3 * triangles[t + 1]!, 3 * triangles[t + 2]!];
    const [ux, uy, uz] = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
    const [vx, vy, vz] = [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!];
    const nz = ux * vy - uy * vx;
    if (nz >= 0) continue;
    const [nx, ny] = [uy * vz - uz * vy, uz * vx - ux * vz];
    // not Math.hypot, which takes many times as long and guards against sizes no part has
    const twice = Math.sqrt(nx * nx + ny * ny + nz * nz);
    if (p[a + 2]! <= ON_BED && p[b + 2]! <= ON_BED && p[c + 2]! <= ON_BED) {
      foot += twice / 2;
      for (const i of [a, b, c]) under.push([p[i]!, p[i + 1]!]);
    } else if (-nz > lean * twice) overhang += twice / 2;
  }
  const middle = centreOfMass(mesh);
  return { foot, overhang, steady: depthInHull(pointHull(under), [middle[0], middle[1]]) };
}

/** Middle of mass of a closed mesh, mm, by tetrahedra from the origin. */
export function centreOfMass({ positions: p, triangles }: Mesh): Vec3 {
  let [six, sx, sy, sz] = [0, 0, 0, 0];
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t]!, 3 * triangles[t + 1]!, 3 * triangles[t + 2]!];
    const [ax, ay, az] = [p[a]!, p[a + 1]!, p[a + 2]!];
    const [bx, by, bz] = [p[b]!, p[b + 1]!, p[b + 2]!];
    const [cx, cy, cz] = [p[c]!, p[c + 1]!, p[c + 2]!];
    const v = ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx);
    six += v;
    sx += v * (ax + bx + cx);
    sy += v * (ay + by + cy);
    sz += v * (az + bz + cz);
  }
  return [sx / 4 / six, sy / 4 / six, sz / 4 / six];
}
