import type { Mesh } from './mesh.js';
import type { Scan } from './scan.js';
import type { Vec3 } from './vec3.js';

/** Lowest and highest corner of a space along the axes, mm. */
export interface Reach {
  readonly from: Vec3;
  readonly to: Vec3;
}

/** A scan with a grid of nodes, each of which knows a point of the surface that is nearest to it: distances in a moment, close ones. */
export interface MeshField {
  readonly scan: Scan;
  /** Place of the first node, mm. */
  readonly origin: Vec3;
  /** Distance between nodes, mm. */
  readonly cell: number;
  /** Number of nodes along x, y and z. */
  readonly size: Vec3;
  /** Which of the points is nearest, for every node, x fastest. */
  readonly nearest: Int32Array;
  /** x, y, z of points of the surface, mm. */
  readonly points: Float64Array;
}

/** Most nodes of a grid. */
const MOST_NODES = 1_000_000;

/** Nodes closer together than this, mm, gain nothing for tubes. */
const LEAST_CELL = 2;

export function fieldOf(scan: Scan, reach: Reach, mostNodes = MOST_NODES): MeshField {
  const span = reach.to.map((v, i) => Math.max(v - reach.from[i]!, 1)) as [number, number, number];
  let cell = Math.max(LEAST_CELL, Math.cbrt((span[0] * span[1] * span[2]) / mostNodes));
  const count = (c: number): [number, number, number] =>
    span.map((s) => Math.ceil(s / c) + 1) as [number, number, number];
  while (count(cell).reduce((a, b) => a * b) > mostNodes) cell *= 1.02;
  const size = count(cell);
  const draft = seed(scan.mesh, reach.from, cell, size);
  spread(draft);
  return { scan, origin: reach.from, cell, size, nearest: draft.nearest, points: draft.points };
}

interface Draft {
  readonly origin: Vec3;
  readonly cell: number;
  readonly size: Vec3;
  readonly nearest: Int32Array;
  readonly squared: Float32Array;
  points: Float64Array;
  count: number;
}

function seed(mesh: Mesh, origin: Vec3, cell: number, size: readonly [number, number, number]): Draft {
  const nodes = size[0] * size[1] * size[2];
  const draft: Draft = {
    origin,
    cell,
    size,
    nearest: new Int32Array(nodes).fill(-1),
    squared: new Float32Array(nodes).fill(Number.POSITIVE_INFINITY),
    points: new Float64Array(3 << 14),
    count: 0,
  };
  const { positions, triangles } = mesh;
  const used = new Uint8Array(positions.length / 3);
  for (let i = 0; i < triangles.length; i++) {
    const v = triangles[i]!;
    if (used[v]) continue;
    used[v] = 1;
    offer(draft, positions[v * 3]!, positions[v * 3 + 1]!, positions[v * 3 + 2]!);
  }
  const longest = (cell / 2) ** 2;
  for (let i = 0; i < triangles.length; i += 3) {
    const a = triangles[i]! * 3;
    const b = triangles[i + 1]! * 3;
    const c = triangles[i + 2]! * 3;
    split(
      draft,
      longest,
      positions[a]!,
      positions[a + 1]!,
      positions[a + 2]!,
      positions[b]!,
      positions[b + 1]!,
      positions[b + 2]!,
      positions[c]!,
      positions[c + 1]!,
      positions[c + 2]!,
    );
  }
  return draft;
}

function split(
  draft: Draft,
  longest: number,
  ax: number,
  ay: number,
  az: number,
  bx: number,
  by: number,
  bz: number,
  cx: number,
  cy: number,
  cz: number,
): void {
  const ab = (bx - ax) ** 2 + (by - ay) ** 2 + (bz - az) ** 2;
  const bc = (cx - bx) ** 2 + (cy - by) ** 2 + (cz - bz) ** 2;
  const ca = (ax - cx) ** 2 + (ay - cy) ** 2 + (az - cz) ** 2;
  const most = Math.max(ab, bc, ca);
  if (most <= longest) return;
  if (ab === most) {
    const mx = (ax + bx) / 2;
    const my = (ay + by) / 2;
    const mz = (az + bz) / 2;
    offer(draft, mx, my, mz);
    split(draft, longest, ax, ay, az, mx, my, mz, cx, cy, cz);
    split(draft, longest, mx, my, mz, bx, by, bz, cx, cy, cz);
  } else if (bc === most) split(draft, longest, bx, by, bz, cx, cy, cz, ax, ay, az);
  else split(draft, longest, cx, cy, cz, ax, ay, az, bx, by, bz);
}

function offer(draft: Draft, x: number, y: number, z: number): void {
  const { origin, cell, size, squared, nearest } = draft;
  const i = Math.min(size[0] - 2, Math.max(0, Math.floor((x - origin[0]) / cell)));
  const j = Math.min(size[1] - 2, Math.max(0, Math.floor((y - origin[1]) / cell)));
  const k = Math.min(size[2] - 2, Math.max(0, Math.floor((z - origin[2]) / cell)));
  const row = size[0];
  const layer = row * size[1];
  let won = false;
  for (let corner = 0; corner < 8; corner++) {
    const ci = i + (corner & 1);
    const cj = j + ((corner >> 1) & 1);
    const ck = k + (corner >> 2);
    const dx = origin[0] + ci * cell - x;
    const dy = origin[1] + cj * cell - y;
    const dz = origin[2] + ck * cell - z;
    const d = dx * dx + dy * dy + dz * dz;
    const n = ci + cj * row + ck * layer;
    if (d < squared[n]!) {
      squared[n] = d;
      nearest[n] = draft.count;
      won = true;
    }
  }
  if (!won) return;
  const at = draft.count * 3;
  if (at === draft.points.length) {
    const more = new Float64Array(at * 2);
    more.set(draft.points);
    draft.points = more;
  }
  draft.points[at] = x;
  draft.points[at + 1] = y;
  draft.points[at + 2] = z;
  draft.count++;
}

function spread(draft: Draft): void {
  const { size } = draft;
  const row = size[0];
  const layer = row * size[1];
  for (let round = 0; round < 2; round++) {
    pass(draft, 1, 0);
    pass(draft, -1, 0);
    pass(draft, row, 1);
    pass(draft, -row, 1);
    pass(draft, layer, 2);
    pass(draft, -layer, 2);
  }
}

function pass(draft: Draft, step: number, axis: number): void {
  const { origin, cell, size, nearest, squared, points } = draft;
  const [nx, ny, nz] = size;
  const layer = nx * ny;
  const back = step < 0;
  const i0 = axis === 0 ? 1 : 0;
  const j0 = axis === 1 ? 1 : 0;
  const k0 = axis === 2 ? 1 : 0;
  for (let kk = k0; kk < nz; kk++) {
    const k = back ? nz - 1 - kk : kk;
    const z = origin[2] + k * cell;
    for (let jj = j0; jj < ny; jj++) {
      const j = back ? ny - 1 - jj : jj;
      const y = origin[1] + j * cell;
      const base = k * layer + j * nx;
      for (let ii = i0; ii < nx; ii++) {
        const i = back ? nx - 1 - ii : ii;
        const n = base + i;
        const s = nearest[n - step]!;
        if (s < 0 || s === nearest[n]!) continue;
        const dx = origin[0] + i * cell - points[s * 3]!;
        const dy = y - points[s * 3 + 1]!;
        const dz = z - points[s * 3 + 2]!;
        const d = dx * dx + dy * dy + dz * dz;
        if (d < squared[n]!) {
          squared[n] = d;
          nearest[n] = s;
        }
      }
    }
  }
}

export function scanDistance(field: MeshField, x: number, y: number, z: number): number {
  const { origin, cell, size, nearest, points } = field;
  const i = cellOf((x - origin[0]) / cell, size[0]);
  const j = cellOf((y - origin[1]) / cell, size[1]);
  const k = cellOf((z - origin[2]) / cell, size[2]);
  const row = size[0];
  const layer = row * size[1];
  const n = i + j * row + k * layer;
  let best = Number.POSITIVE_INFINITY;
  let last = -1;
  for (let corner = 0; corner < 8; corner++) {
    const s = nearest[n + (corner & 1) + ((corner >> 1) & 1) * row + (corner >> 2) * layer]!;
    if (s === last) continue;
    last = s;
    const dx = points[s * 3]! - x;
    const dy = points[s * 3 + 1]! - y;
    const dz = points[s * 3 + 2]! - z;
    const d = dx * dx + dy * dy + dz * dz;
    if (d < best) best = d;
  }
  return Math.sqrt(best);
}

/** Least distance along the link p-q to a scan, mm; `cutoff` when nothing is nearer. */
export function scanLinkDistance(field: MeshField, p: Vec3, q: Vec3, cutoff: number): number {
  const link = Math.hypot(q[0] - p[0], q[1] - p[1], q[2] - p[2]);
  let best = cutoff;
  for (let run = 0; ; ) {
    const t = link > 0 ? run / link : 0;
    const d = scanDistance(field, p[0] + (q[0] - p[0]) * t, p[1] + (q[1] - p[1]) * t, p[2] + (q[2] - p[2]) * t);
    if (d < best) best = d;
    if (run >= link) return best;
    run = Math.min(link, run + Math.max(d - best, field.cell / 2));
  }
}

function cellOf(at: number, nodes: number): number {
  const i = Math.floor(at);
  return i < 0 ? 0 : i > nodes - 2 ? nodes - 2 : i;
}
