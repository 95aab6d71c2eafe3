import type { Mesh } from '../../geometry/mesh/mesh.js';

/** Corners laid out triangle by triangle with their normals, and the edges that are seen as lines: pairs of points. */
export interface Creased {
  readonly positions: Float32Array;
  readonly normals: Float32Array;
  readonly edges: Float32Array;
}

/**
 * A mesh made ready to be drawn: a corner's normal is that of the faces about it that turn from its own by less than `crease` rad,
 * weighed by their area; edges where faces turn by more, or that have one face, are lines.
 */
export function creased({ positions: points, triangles }: Mesh, crease: number): Creased {
  const faces = faceNormals(points, triangles);
  const around = facesAround(points.length / 3, triangles);
  const limit = Math.cos(crease);
  const positions = new Float32Array(3 * triangles.length);
  const normals = new Float32Array(3 * triangles.length);
  for (let k = 0; k < triangles.length; k++) {
    const i = triangles[k]!;
    const own = Math.floor(k / 3);
    let [x, y, z] = [0, 0, 0];
    for (const f of around(i)) {
      if (f !== own && cosine(faces, own, f) < limit) continue;
      x += faces[3 * f]!;
      y += faces[3 * f + 1]!;
      z += faces[3 * f + 2]!;
    }
    const l = Math.hypot(x, y, z) || 1;
    normals.set([x / l, y / l, z / l], 3 * k);
    positions.set([points[3 * i]!, points[3 * i + 1]!, points[3 * i + 2]!], 3 * k);
  }
  return { positions, normals, edges: edgesOf(points, triangles, faces, limit) };
}

/** Normals as long as twice the area of their face. */
function faceNormals(p: Float64Array, triangles: Uint32Array): Float64Array {
  const normals = new Float64Array(triangles.length);
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t]!, 3 * triangles[t + 1]!, 3 * triangles[t + 2]!];
    const [ux, uy, uz] = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
    const [vx, vy, vz] = [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!];
    normals.set([uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx], t);
  }
  return normals;
}

function cosine(n: Float64Array, f: number, g: number): number {
  const [ax, ay, az] = [n[3 * f]!, n[3 * f + 1]!, n[3 * f + 2]!];
  const [bx, by, bz] = [n[3 * g]!, n[3 * g + 1]!, n[3 * g + 2]!];
  const l = Math.sqrt((ax * ax + ay * ay + az * az) * (bx * bx + by * by + bz * bz));
  return l > 0 ? (ax * bx + ay * by + az * bz) / l : 1;
}

/** The faces about every point, as stretches of one list. */
function facesAround(points: number, triangles: Uint32Array): (i: number) => Uint32Array {
  const ends = new Uint32Array(points + 1);
  for (const i of triangles) ends[i + 1]!++;
  for (let i = 0; i < points; i++) ends[i + 1]! += ends[i]!;
  const next = ends.slice();
  const list = new Uint32Array(triangles.length);
  for (let k = 0; k < triangles.length; k++) list[next[triangles[k]!]!++] = Math.floor(k / 3);
  return (i) => list.subarray(ends[i]!, ends[i + 1]!);
}

function edgesOf(p: Float64Array, triangles: Uint32Array, faces: Float64Array, limit: number): Float32Array {
  const points = p.length / 3;
  const open = new Map<number, number>();
  const edges: number[] = [];
  const draw = (a: number, b: number): void => {
    edges.push(p[3 * a]!, p[3 * a + 1]!, p[3 * a + 2]!, p[3 * b]!, p[3 * b + 1]!, p[3 * b + 2]!);
  };
  for (let k = 0; k < triangles.length; k++) {
    const a = triangles[k]!;
    const b = triangles[k % 3 === 2 ? k - 2 : k + 1]!;
    const face = Math.floor(k / 3);
    const other = open.get(b * points + a);
    if (other === undefined) {
      open.set(a * points + b, face);
      continue;
    }
    open.delete(b * points + a);
    if (cosine(faces, face, other) < limit) draw(a, b);
  }
  for (const key of open.keys()) draw(Math.floor(key / points), key % points);
  return Float32Array.from(edges);
}
