import type { Mesh } from './mesh.js';
import type { Scan } from './scan.js';
import type { Vec3 } from './vec3.js';

/** Lowest and highest corner of a space along the axes, mm. */
export interface Reach {
  readonly from: Vec3;
  readonly to: Vec3;
}

/**
 * A scan with a grid over the space that tubes may reach. Every node of the grid knows a point of the surface near to it, every
 * cell the points that lie in it: distances in a moment, and close ones (`scan-distance.ts`).
 */
export interface MeshField {
  readonly scan: Scan;
  /** Place of the first node, mm. */
  readonly origin: Vec3;
  /** Distance between nodes, mm. */
  readonly cell: number;
  /** Number of nodes along x, y and z. */
  readonly size: Vec3;
  /** x, y, z of points of the surface, mm. */
  readonly points: Float64Array;
  /** The point nearest to every node, x fastest. */
  readonly nearest: Int32Array;
  /** The distance of every node from it, mm. */
  readonly away: Float32Array;
  /** One of the points in the cell above every node, or -1. */
  readonly first: Int32Array;
  /** For every point another one in the same cell, or -1. */
  readonly next: Int32Array;
}

/** Most nodes of a grid: built in less than 0.1 s, 7 MB and the points. */
const MOST_NODES = 400_000;

/** Nodes closer together than this, mm, gain nothing for tubes. */
const LEAST_CELL = 2;

/** Beyond this distance, mm, no gap matters to a search, and surfaces need not be followed. */
export const FAR = 60;

/**
 * The grid of a scan over the space `reach`, beyond which no distance will be asked. Its cells are as small as `mostNodes` allow.
 * Throws RangeError when the space is not finite or inside out.
 */
export function fieldOf(scan: Scan, reach: Reach, mostNodes = MOST_NODES): MeshField {
  const span = reach.to.map((v, i) => v - reach.from[i]!);
  if (!span.every((s) => s >= 0 && Number.isFinite(s))) {
    throw new RangeError(`no space from ${reach.from.join(', ')} mm to ${reach.to.join(', ')} mm`);
  }
  const { cell, size } = gridOver(span as [number, number, number], mostNodes);
  const [x, y, z] = reach.from;
  const draft = emptyDraft([x - cell, y - cell, z - cell], cell, size);
  followSurface(draft, scan.mesh);
  for (let round = 0; round < ROUNDS; round++) for (const axis of [0, 1, 2] as const) spreadAlong(draft, axis);
  const { origin, points, nearest, first, next } = draft;
  const away = new Float32Array(nearest.length);
  for (let i = 0; i < away.length; i++) away[i] = Math.sqrt(draft.squared[i]!);
  return { scan, origin, cell, size, points, nearest, away, first, next };
}

/** The smallest cell whose grid, one cell wider than the space on every side, has no more nodes than allowed. */
function gridOver(span: Vec3, mostNodes: number): { readonly cell: number; readonly size: [number, number, number] } {
  for (let cell = LEAST_CELL; ; cell *= 1.02) {
    const size = span.map((s) => Math.ceil(s / cell) + 3) as [number, number, number];
    if (size[0] * size[1] * size[2] <= Math.max(mostNodes, 27)) return { cell, size };
  }
}

/** A grid being filled. */
interface Draft {
  readonly origin: Vec3;
  readonly cell: number;
  readonly size: Vec3;
  readonly nearest: Int32Array;
  /** Squared distance of every node from its nearest point, mm2. */
  readonly squared: Float64Array;
  readonly first: Int32Array;
  /** Which of the `PARTS` cubed parts of the cell hold a point already, a bit each. */
  readonly taken: Int32Array;
  points: Float64Array;
  next: Int32Array;
  count: number;
}

/** A cell keeps at most one point in each of its parts, this many along every axis: however dense the scan, cells stay small. */
const PARTS = 3;

function emptyDraft(origin: Vec3, cell: number, size: Vec3): Draft {
  const nodes = size[0] * size[1] * size[2];
  return {
    origin,
    cell,
    size,
    nearest: new Int32Array(nodes).fill(-1),
    squared: new Float64Array(nodes).fill(Number.POSITIVE_INFINITY),
    first: new Int32Array(nodes).fill(-1),
    taken: new Int32Array(nodes),
    points: new Float64Array(3 << 14),
    next: new Int32Array(1 << 14),
    count: 0,
  };
}

/** Offers the grid points all over the surface, at most half a cell apart wherever it comes within `FAR` of the grid. */
function followSurface(draft: Draft, { positions, triangles }: Mesh): void {
  const offered = new Uint8Array(positions.length / 3);
  const corner = (v: number): void => {
    if (offered[v]) return;
    offered[v] = 1;
    offer(draft, positions[v * 3]!, positions[v * 3 + 1]!, positions[v * 3 + 2]!);
  };
  const longest = (draft.cell / 2) ** 2;
  const t = new Float64Array(9);
  for (let i = 0; i < triangles.length; i += 3) {
    for (let k = 0; k < 3; k++) {
      const v = triangles[i + k]!;
      corner(v);
      t[k * 3] = positions[v * 3]!;
      t[k * 3 + 1] = positions[v * 3 + 1]!;
      t[k * 3 + 2] = positions[v * 3 + 2]!;
    }
    halve(draft, longest, t[0]!, t[1]!, t[2]!, t[3]!, t[4]!, t[5]!, t[6]!, t[7]!, t[8]!);
  }
}

/** Halves a triangle across its longest side until no side is longer than the root of `longest`, offering each middle. */
function halve(
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
  const ab = (bx - ax) * (bx - ax) + (by - ay) * (by - ay) + (bz - az) * (bz - az);
  const bc = (cx - bx) * (cx - bx) + (cy - by) * (cy - by) + (cz - bz) * (cz - bz);
  const ca = (ax - cx) * (ax - cx) + (ay - cy) * (ay - cy) + (az - cz) * (az - cz);
  if (ab <= longest && bc <= longest && ca <= longest) return;
  if (bc > ab && bc >= ca) {
    halve(draft, longest, bx, by, bz, cx, cy, cz, ax, ay, az);
    return;
  }
  if (ca > ab && ca > bc) {
    halve(draft, longest, cx, cy, cz, ax, ay, az, bx, by, bz);
    return;
  }
  if (farAlong(draft, 0, ax, bx, cx) || farAlong(draft, 1, ay, by, cy) || farAlong(draft, 2, az, bz, cz)) return;
  const mx = (ax + bx) / 2;
  const my = (ay + by) / 2;
  const mz = (az + bz) / 2;
  offer(draft, mx, my, mz);
  halve(draft, longest, ax, ay, az, mx, my, mz, cx, cy, cz);
  halve(draft, longest, mx, my, mz, bx, by, bz, cx, cy, cz);
}

function farAlong({ origin, cell, size }: Draft, axis: 0 | 1 | 2, a: number, b: number, c: number): boolean {
  const low = origin[axis] - FAR;
  const high = origin[axis] + (size[axis] - 1) * cell + FAR;
  return (a < low && b < low && c < low) || (a > high && b > high && c > high);
}

/** Takes up a point of the surface when it is new to its part of a cell or nearest to a corner of the cell. */
function offer(draft: Draft, x: number, y: number, z: number): void {
  const { origin, cell, size, squared, nearest, taken } = draft;
  const u = (x - origin[0]) / cell;
  const v = (y - origin[1]) / cell;
  const w = (z - origin[2]) / cell;
  const i = cellAt(u, size[0]);
  const j = cellAt(v, size[1]);
  const k = cellAt(w, size[2]);
  const row = size[0];
  const layer = row * size[1];
  const home = i + j * row + k * layer;
  const inside = u >= i && u < i + 1 && v >= j && v < j + 1 && w >= k && w < k + 1;
  if (inside) {
    const part = partOf(u - i) + PARTS * (partOf(v - j) + PARTS * partOf(w - k));
    if (taken[home]! & (1 << part)) return;
    taken[home]! |= 1 << part;
  }
  let kept = inside;
  for (let corner = 0; corner < 8; corner++) {
    const ci = corner & 1;
    const cj = (corner >> 1) & 1;
    const ck = corner >> 2;
    const dx = (i + ci - u) * cell;
    const dy = (j + cj - v) * cell;
    const dz = (k + ck - w) * cell;
    const d = dx * dx + dy * dy + dz * dz;
    const node = home + ci + cj * row + ck * layer;
    if (d >= squared[node]!) continue;
    squared[node] = d;
    nearest[node] = draft.count;
    kept = true;
  }
  if (kept) keep(draft, x, y, z, inside ? home : -1);
}

const partOf = (fraction: number): number => Math.min(PARTS - 1, Math.floor(fraction * PARTS));

/** Number of the cell, along one axis, that holds a place given in cells from the first node; the outermost ones reach on without end. */
export function cellAt(place: number, nodes: number): number {
  const i = Math.floor(place);
  return i < 0 ? 0 : i > nodes - 2 ? nodes - 2 : i;
}

function keep(draft: Draft, x: number, y: number, z: number, home: number): void {
  const n = draft.count++;
  if (n === draft.next.length) {
    draft.points = grown(draft.points, new Float64Array(n * 6));
    draft.next = grown(draft.next, new Int32Array(n * 2));
  }
  draft.points[n * 3] = x;
  draft.points[n * 3 + 1] = y;
  draft.points[n * 3 + 2] = z;
  draft.next[n] = -1;
  if (home < 0) return;
  draft.next[n] = draft.first[home]!;
  draft.first[home] = n;
}

function grown<A extends Float64Array | Int32Array>(from: A, to: A): A {
  to.set(from);
  return to;
}

/** How often nearest points are handed on along all three axes: a third time changes next to nothing. */
const ROUNDS = 2;

/**
 * Hands nearest points on from node to node along one axis, there and back.
 * Method: Danielsson, Euclidean distance mapping (1980), in space and with points that need not lie on nodes (from memory).
 */
function spreadAlong(draft: Draft, axis: 0 | 1 | 2): void {
  const { size } = draft;
  const step = axis === 0 ? 1 : axis === 1 ? size[0] : size[0] * size[1];
  for (const sense of [1, -1] as const) {
    for (let k = axis === 2 ? 1 : 0; k < size[2]; k++) {
      for (let j = axis === 1 ? 1 : 0; j < size[1]; j++) {
        const across = sense > 0 || axis === 0;
        spreadRow(
          draft,
          across || axis === 2 ? j : size[1] - 1 - j,
          across || axis === 1 ? k : size[2] - 1 - k,
          step,
          sense,
        );
      }
    }
  }
}

function spreadRow(draft: Draft, j: number, k: number, step: number, sense: 1 | -1): void {
  const { origin, cell, size, points, nearest, squared } = draft;
  const y = origin[1] + j * cell;
  const z = origin[2] + k * cell;
  const base = (j + k * size[1]) * size[0];
  const within = step === 1 ? 1 : 0;
  for (let n = within; n < size[0]; n++) {
    const i = sense > 0 ? n : size[0] - 1 - n;
    const node = base + i;
    const p = nearest[node - sense * step]!;
    if (p < 0 || p === nearest[node]) continue;
    const dx = origin[0] + i * cell - points[p * 3]!;
    const dy = y - points[p * 3 + 1]!;
    const dz = z - points[p * 3 + 2]!;
    const d = dx * dx + dy * dy + dz * dz;
    if (d >= squared[node]!) continue;
    squared[node] = d;
    nearest[node] = p;
  }
}
