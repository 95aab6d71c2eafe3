import { type Box3, BufferAttribute, BufferGeometry } from 'three';
import { CENTER, MeshBVH } from 'three-mesh-bvh';
import type { Mesh } from '../mesh/mesh.js';
import { lowerToTriangle, type SegmentBest } from '../mesh/segment-triangle.js';
import type { Vec3 } from '../vec3.js';

/** Where a segment comes closest to a scan: distance, mm, and how far along the segment, 0 to 1. */
export interface ScanApproach {
  readonly distance: number;
  readonly t: number;
}

/**
 * A scanned surface made ready for exact distances. This file is the only one that knows the tree of boxes behind it
 * (three-mesh-bvh): others hold what `scanOf` returns.
 */
export interface Scan {
  readonly mesh: Mesh;
  /**
   * Least distance from the segment p-q to the surface, exact to rounding; a point is a segment from it to itself. Null when
   * nothing is nearer than `within` mm.
   */
  readonly approach: (p: Vec3, q: Vec3, within: number) => ScanApproach | null;
}

/** Triangles a leaf of the tree holds: half as many take half as long again to sort, and answer no sooner. */
const LEAF = 20;

/** What coordinates may lose, mm, because the tree holds its boxes as 32-bit floats. */
const BOX_SLACK = 0.001;

/**
 * A scan from its mesh. Surfaces may be open, inside out, doubled or hold collapsed triangles: only where they are counts.
 * Throws RangeError when there is no triangle, a coordinate is not a finite number or a triangle names a point that is not there.
 */
export function scanOf(mesh: Mesh): Scan {
  refuseUnusable(mesh);
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(mesh.positions, 3));
  // the tree sorts the triangles it is given, so it gets its own
  const order = mesh.triangles.slice();
  geometry.setIndex(new BufferAttribute(order, 1));
  const tree = new MeshBVH(geometry, { strategy: CENTER, targetLeafSize: LEAF });
  return { mesh, approach: (p, q, within) => approach(tree, mesh.positions, order, p, q, within) };
}

function refuseUnusable({ positions, triangles }: Mesh): void {
  if (triangles.length < 3) throw new RangeError('the scan holds no triangle');
  const points = positions.length / 3;
  for (let i = 0; i < triangles.length; i++) {
    if (triangles[i]! >= points) {
      throw new RangeError(`a triangle of the scan names a point beyond the ${points} there are`);
    }
  }
  for (let i = 0; i < positions.length; i++) {
    if (!Number.isFinite(positions[i])) throw new RangeError('a coordinate of the scan is not a finite number');
  }
}

function approach(
  tree: MeshBVH,
  positions: Float64Array,
  order: Uint32Array,
  p: Vec3,
  q: Vec3,
  within: number,
): ScanApproach | null {
  if (!(within > 0)) return null;
  const best: SegmentBest = { squared: within * within, t: -1 };
  const away = boundFor(p, q);
  tree.shapecast({
    boundsTraverseOrder: away,
    intersectsBounds: (_box, _leaf, score) => {
      const least = Math.max(0, score! - BOX_SLACK);
      return least * least < best.squared;
    },
    intersectsRange: (offset, count) => {
      for (let i = offset * 3; i < (offset + count) * 3; i += 3) {
        const a = order[i]! * 3;
        const b = order[i + 1]! * 3;
        const c = order[i + 2]! * 3;
        lowerToTriangle(best, p[0], p[1], p[2], q[0], q[1], q[2], positions, a, b, c);
      }
      return false;
    },
  });
  return best.t < 0 ? null : { distance: Math.sqrt(best.squared), t: best.t };
}

/** A lower bound of the distance from a box to the segment: between boxes, and from the segment to the ball round the box. */
function boundFor(p: Vec3, q: Vec3): (box: Box3) => number {
  const dx = q[0] - p[0];
  const dy = q[1] - p[1];
  const dz = q[2] - p[2];
  const dd = dx * dx + dy * dy + dz * dz;
  const lx = Math.min(p[0], q[0]);
  const ly = Math.min(p[1], q[1]);
  const lz = Math.min(p[2], q[2]);
  const hx = Math.max(p[0], q[0]);
  const hy = Math.max(p[1], q[1]);
  const hz = Math.max(p[2], q[2]);
  return ({ min, max }) => {
    const gx = Math.max(min.x - hx, lx - max.x, 0);
    const gy = Math.max(min.y - hy, ly - max.y, 0);
    const gz = Math.max(min.z - hz, lz - max.z, 0);
    const apart = norm(gx, gy, gz);
    const cx = (min.x + max.x) / 2 - p[0];
    const cy = (min.y + max.y) / 2 - p[1];
    const cz = (min.z + max.z) / 2 - p[2];
    const t = dd > 0 ? Math.min(1, Math.max(0, (cx * dx + cy * dy + cz * dz) / dd)) : 0;
    const centre = norm(cx - dx * t, cy - dy * t, cz - dz * t);
    return Math.max(apart, centre - norm(max.x - min.x, max.y - min.y, max.z - min.z) / 2);
  };
}

const norm = (x: number, y: number, z: number): number => Math.sqrt(x * x + y * y + z * z);
