import type { Mesh } from './mesh.js';
import { cornersOf, triangleArea, triangleCount } from './mesh-measure.js';
import { depthInHull, pointHull } from './point-hull.js';
import type { Vec2 } from './vec2.js';
import { cross, dot, length, sub, type Vec3 } from './vec3.js';

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
  let [foot, overhang] = [0, 0];
  const under: Vec2[] = [];
  for (let t = 0; t < triangleCount(mesh); t++) {
    const corners = cornersOf(mesh, t);
    const [a, b, c] = corners;
    const normal = cross(sub(b, a), sub(c, a));
    if (normal[2] >= 0) continue;
    if (corners.every((p) => p[2] <= ON_BED)) {
      foot += triangleArea(corners);
      under.push(...corners.map((p): Vec2 => [p[0], p[1]]));
    } else if (-normal[2] > Math.sin(limit) * length(normal) * (1 + 1e-9)) overhang += triangleArea(corners);
  }
  const middle = centreOfMass(mesh);
  return { foot, overhang, steady: depthInHull(pointHull(under), [middle[0], middle[1]]) };
}

/** Middle of mass of a closed mesh, mm, by tetrahedra from the origin. */
export function centreOfMass(mesh: Mesh): Vec3 {
  let six = 0;
  const sum = [0, 0, 0];
  for (let t = 0; t < triangleCount(mesh); t++) {
    const [a, b, c] = cornersOf(mesh, t);
    const v = dot(a, cross(b, c));
    six += v;
    for (let k = 0; k < 3; k++) sum[k]! += (v * (a[k]! + b[k]! + c[k]!)) / 4;
  }
  return [sum[0]! / six, sum[1]! / six, sum[2]! / six];
}
