import modeling from '@jscad/modeling';
import { cornersOf, triangleCount } from '../mesh/measure.js';
import type { Mesh } from '../mesh/mesh.js';
import { weldExact } from '../mesh/weld.js';
import type { Vec3 } from '../vec3.js';

const { geom3, poly3 } = modeling.geometries;

/** A solid of @jscad/modeling. */
export type Geom3 = ReturnType<typeof geom3.create>;

/**
 * Mesh of a jscad solid: every convex polygon cut into triangles from its first corner, corners of exactly equal coordinates
 * made one point. jscad's primitives and extrusions share their corners exactly; its booleans do not and must not come here.
 */
export function meshFromGeom3(geometry: Geom3): Mesh {
  const positions: number[] = [];
  const triangles: number[] = [];
  for (const polygon of geom3.toPolygons(geometry)) {
    const first = positions.length / 3;
    for (const [x, y, z] of polygon.vertices) positions.push(x, y, z);
    for (let k = 1; k + 1 < polygon.vertices.length; k++) triangles.push(first, first + k, first + k + 1);
  }
  return weldExact({ positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) });
}

/** The mesh as a jscad solid of triangles, for jscad's serializers. */
export function geom3FromMesh(mesh: Mesh): Geom3 {
  const polygons = Array.from({ length: triangleCount(mesh) }, (_, t) =>
    poly3.create(cornersOf(mesh, t).map((p): [number, number, number] => [p[0], p[1], p[2]])),
  );
  return geom3.create(polygons);
}

/** A point as jscad takes it: the same numbers, not readonly. */
export const jscadPoint = (p: Vec3): [number, number, number] => [p[0], p[1], p[2]];
