import type { Vec3 } from '../vec3.js';

/** A grid being filled. */
export interface FieldDraft {
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

/** A grid of nodes `cell` mm apart, with no point yet. */
export function emptyDraft(origin: Vec3, cell: number, size: Vec3): FieldDraft {
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

/** Takes up a point of the surface when it is new to its part of a cell or nearest to a corner of the cell. */
export function offer(draft: FieldDraft, x: number, y: number, z: number): void {
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

function keep(draft: FieldDraft, x: number, y: number, z: number, home: number): void {
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
