import { type Frame, pointInto } from '../../geometry/frame.js';
import { pointOf } from '../../geometry/mesh/measure.js';
import type { Mesh } from '../../geometry/mesh/mesh.js';
import { lerp2, type Vec2 } from '../../geometry/vec2.js';
import { cross, length, sub, type Vec3 } from '../../geometry/vec3.js';

/** Where the edges of a mesh cross the plane z = 0 of a frame, in its x and y, within `reach` mm of its origin; every edge once. */
export function crossings(mesh: Mesh, frame: Frame, reach: number): Vec2[] {
  const { positions, triangles } = mesh;
  const count = positions.length / 3;
  const { origin: o, z } = frame;
  const height = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const h =
      (positions[3 * i]! - o[0]) * z[0] + (positions[3 * i + 1]! - o[1]) * z[1] + (positions[3 * i + 2]! - o[2]) * z[2];
    height[i] = h;
  }
  const found: Vec2[] = [];
  const flat = (i: number): Vec3 => pointInto(frame, pointOf(mesh, i));
  for (let t = 0; t < triangles.length; t += 3) {
    for (let k = 0; k < 3; k++) {
      const [a, b] = [triangles[t + k]!, triangles[t + ((k + 1) % 3)]!];
      // an edge is met twice, once either way: take it upwards only
      if (!(height[a]! < 0 && height[b]! >= 0)) continue;
      const [p, q] = [flat(a), flat(b)];
      const at = lerp2([p[0], p[1]], [q[0], q[1]], height[a]! / (height[a]! - height[b]!));
      if (Math.hypot(at[0], at[1]) <= reach) found.push(at);
    }
  }
  return found;
}

/** Points of a mesh near the plane z = 0 of a frame: within `deep` mm of it and between two distances from its axis, in the frame. */
export function pointsNear(mesh: Mesh, frame: Frame, deep: number, [least, most]: readonly [number, number]): Vec3[] {
  const found: Vec3[] = [];
  const { origin: o, z } = frame;
  for (let i = 0; i < mesh.positions.length / 3; i++) {
    const p = pointOf(mesh, i);
    if (Math.abs((p[0] - o[0]) * z[0] + (p[1] - o[1]) * z[1] + (p[2] - o[2]) * z[2]) > deep) continue;
    const q = pointInto(frame, p);
    const r = Math.hypot(q[0], q[1]);
    if (r >= least && r <= most) found.push(q);
  }
  return found;
}

/** A flat ring of a mesh that faces along z of a frame. */
export interface FlatRing {
  /** Mean height of its triangles, weighed by their area, and their furthest corner from it, mm. */
  readonly height: number;
  /** Corners in the frame. */
  readonly corners: readonly Vec3[];
}

/** Two directions this close are the same, rad: printed corners stand on a grid, which turns small triangles a little. */
const FLAT = 0.01;

/**
 * What of a mesh lies flat against the plane z = 0 of a frame: the triangles square to z within `deep` mm of the plane and between two
 * distances from its axis. Null where there is none. Rims broken by chamfers and grooves do not matter to it.
 */
export function flatRing(
  mesh: Mesh,
  frame: Frame,
  deep: number,
  [least, most]: readonly [number, number],
): FlatRing | null {
  const { triangles } = mesh;
  const near = pointsIn(mesh, frame, deep);
  const corners: Vec3[] = [];
  let [area, height] = [0, 0];
  for (let t = 0; t < triangles.length; t += 3) {
    const own = [near[triangles[t]!], near[triangles[t + 1]!], near[triangles[t + 2]!]];
    const [a, b, c] = own;
    if (!(a && b && c)) continue;
    if (own.some((p) => Math.hypot(p![0], p![1]) > most) || own.every((p) => Math.hypot(p![0], p![1]) < least))
      continue;
    const normal = cross(sub(b, a), sub(c, a));
    const twice = length(normal);
    if (twice === 0 || Math.hypot(normal[0], normal[1]) > FLAT * twice) continue;
    corners.push(a, b, c);
    area += twice;
    height += (twice * (a[2] + b[2] + c[2])) / 3;
  }
  return area === 0 ? null : { height: height / area, corners };
}

/** Points of a mesh by their number, in the frame, those within `deep` mm of the plane z = 0. */
function pointsIn(mesh: Mesh, frame: Frame, deep: number): (Vec3 | undefined)[] {
  const { origin: o, z } = frame;
  return Array.from({ length: mesh.positions.length / 3 }, (_, i) => {
    const p = pointOf(mesh, i);
    const h = (p[0] - o[0]) * z[0] + (p[1] - o[1]) * z[1] + (p[2] - o[2]) * z[2];
    return Math.abs(h) > deep ? undefined : pointInto(frame, p);
  });
}
