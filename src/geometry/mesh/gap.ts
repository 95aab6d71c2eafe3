import type { Vec3 } from '../vec3.js';
import type { Mesh } from './mesh.js';
import { lowerToTriangle, type SegmentBest } from './segment-triangle.js';

/** A surface made ready for its distances to others: its triangles in a tree of boxes. */
export interface SurfaceTree {
  readonly positions: Float64Array;
  /** Places of the corners' coordinates in `positions`, three a triangle, in the order of the leaves. */
  readonly corners: Uint32Array;
  /** Lowest and highest coordinates of every node, six each, the root first; a node's first child follows it. */
  readonly boxes: Float64Array;
  /** First triangle of every node, the one after its last, and its second child: 0 for a leaf. */
  readonly from: Uint32Array;
  readonly to: Uint32Array;
  readonly second: Uint32Array;
}

/** Triangles a leaf holds at most. */
const LEAF = 1;

/** The tree of a surface: triangles halved at the middle of the longest side of the box round their middles. */
export function surfaceTree({ positions, triangles }: Mesh): SurfaceTree {
  const count = triangles.length / 3;
  const order = Uint32Array.from({ length: count }, (_, t) => t);
  const middles = middlesOf(positions, triangles);
  const most = Math.max(1, 2 * count);
  const [from, to, second] = [new Uint32Array(most), new Uint32Array(most), new Uint32Array(most)];
  let nodes = 0;
  const grow = (start: number, end: number): void => {
    const node = nodes++;
    [from[node], to[node]] = [start, end];
    if (end - start <= LEAF) return;
    const split = halved(order, middles, start, end);
    grow(start, split);
    second[node] = nodes;
    grow(split, end);
  };
  grow(0, count);
  const corners = new Uint32Array(3 * count);
  for (let i = 0; i < count; i++) {
    for (let k = 0; k < 3; k++) corners[3 * i + k] = 3 * triangles[3 * order[i]! + k]!;
  }
  return { positions, corners, boxes: boxesOf(positions, corners, { from, to, second }, nodes), from, to, second };
}

function middlesOf(p: Float64Array, triangles: Uint32Array): Float64Array {
  const middles = new Float64Array(triangles.length);
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [3 * triangles[t]!, 3 * triangles[t + 1]!, 3 * triangles[t + 2]!];
    for (let k = 0; k < 3; k++) middles[t + k] = p[a + k]! + p[b + k]! + p[c + k]!;
  }
  return middles;
}

/** Sorts a stretch of the order into two by the middles along the longest side of their box; returns where the second starts. */
function halved(order: Uint32Array, middles: Float64Array, start: number, end: number): number {
  let [axis, longest, at] = [0, -1, 0];
  for (let k = 0; k < 3; k++) {
    let [low, high] = [Infinity, -Infinity];
    for (let i = start; i < end; i++) {
      const v = middles[3 * order[i]! + k]!;
      if (v < low) low = v;
      if (v > high) high = v;
    }
    if (high - low > longest) [axis, longest, at] = [k, high - low, (low + high) / 2];
  }
  let split = start;
  for (let i = start; i < end; i++) {
    const t = order[i]!;
    if (middles[3 * t + axis]! >= at) continue;
    order[i] = order[split]!;
    order[split++] = t;
  }
  // middles that fall together are halved by number
  return split === start || split === end ? (start + end) >> 1 : split;
}

/** Boxes of all nodes, leaves up: children come after their parents. */
function boxesOf(
  p: Float64Array,
  corners: Uint32Array,
  { from, to, second }: Pick<SurfaceTree, 'from' | 'to' | 'second'>,
  nodes: number,
): Float64Array {
  const boxes = new Float64Array(6 * nodes);
  for (let node = nodes - 1; node >= 0; node--) {
    for (let k = 0; k < 3; k++) {
      let [low, high] = [Infinity, -Infinity];
      if (second[node] === 0) {
        for (let i = 3 * from[node]!; i < 3 * to[node]!; i++) {
          const v = p[corners[i]! + k]!;
          if (v < low) low = v;
          if (v > high) high = v;
        }
      } else {
        const [a, b] = [6 * (node + 1), 6 * second[node]!];
        low = Math.min(boxes[a + k]!, boxes[b + k]!);
        high = Math.max(boxes[a + 3 + k]!, boxes[b + 3 + k]!);
      }
      boxes[6 * node + k] = low;
      boxes[6 * node + 3 + k] = high;
    }
  }
  return boxes;
}

const UNMOVED: Vec3 = [0, 0, 0];

interface Search extends SegmentBest {
  /** Squared distance, mm2, at which nothing nearer is looked for. */
  readonly enough: number;
}

/**
 * Least distance between two surfaces, mm, the second moved by `shift`, exact to rounding: 0 where they cross, `within` where nothing is
 * nearer. What lies inside the other without crossing its surface is as far as the surfaces are. Where the distance is less than
 * `enough` mm, any one less than that is returned.
 */
export function meshGap(a: SurfaceTree, b: SurfaceTree, within: number, { shift = UNMOVED, enough = 0 } = {}): number {
  const best: Search = { squared: within * within, t: 0, enough: enough * enough };
  const moved = shift.every((v) => v === 0) ? b : movedTree(b, shift);
  if (squaredBetween(a, 0, moved, 0) < best.squared) descend(a, 0, moved, 0, best);
  return Math.sqrt(best.squared);
}

const movedTree = (tree: SurfaceTree, shift: Vec3): SurfaceTree => ({
  ...tree,
  positions: tree.positions.map((v, i) => v + shift[i % 3]!),
  boxes: tree.boxes.map((v, i) => v + shift[i % 3]!),
});

/** Goes down the larger of two nodes, the nearer half first. */
function descend(a: SurfaceTree, i: number, b: SurfaceTree, j: number, best: Search): void {
  if (best.squared < best.enough) return;
  const [aSplits, bSplits] = [a.second[i] !== 0, b.second[j] !== 0];
  if (!aSplits && !bSplits) {
    leaves(a, i, b, j, best);
    return;
  }
  if (aSplits && (!bSplits || a.to[i]! - a.from[i]! >= b.to[j]! - b.from[j]!)) {
    const [near, far] = [squaredBetween(a, i + 1, b, j), squaredBetween(a, a.second[i]!, b, j)];
    const first = near <= far;
    if (Math.min(near, far) < best.squared) descend(a, first ? i + 1 : a.second[i]!, b, j, best);
    if (Math.max(near, far) < best.squared) descend(a, first ? a.second[i]! : i + 1, b, j, best);
    return;
  }
  const [near, far] = [squaredBetween(a, i, b, j + 1), squaredBetween(a, i, b, b.second[j]!)];
  const first = near <= far;
  if (Math.min(near, far) < best.squared) descend(a, i, b, first ? j + 1 : b.second[j]!, best);
  if (Math.max(near, far) < best.squared) descend(a, i, b, first ? b.second[j]! : j + 1, best);
}

/** Squared distance of the boxes of two nodes, mm2. */
function squaredBetween(a: SurfaceTree, i: number, b: SurfaceTree, j: number): number {
  let squared = 0;
  for (let k = 0; k < 3; k++) {
    const apart = Math.max(
      a.boxes[6 * i + k]! - b.boxes[6 * j + 3 + k]!,
      b.boxes[6 * j + k]! - a.boxes[6 * i + 3 + k]!,
      0,
    );
    squared += apart * apart;
  }
  return squared;
}

function leaves(a: SurfaceTree, i: number, b: SurfaceTree, j: number, best: Search): void {
  for (let s = 3 * a.from[i]!; s < 3 * a.to[i]!; s += 3) {
    for (let t = 3 * b.from[j]!; t < 3 * b.to[j]!; t += 3) {
      if (isBeyondPlane(a, s, b, t, best.squared) || isBeyondPlane(b, t, a, s, best.squared)) continue;
      sidesTo(a, s, b, t, best);
      sidesTo(b, t, a, s, best);
    }
  }
}

/** True when one triangle lies wholly on one side of another's plane, further from it than the best. */
function isBeyondPlane(of: SurfaceTree, s: number, to: SurfaceTree, t: number, squared: number): boolean {
  const p = to.positions;
  const [a, b, c] = [to.corners[t]!, to.corners[t + 1]!, to.corners[t + 2]!];
  const [ax, ay, az] = [p[a]!, p[a + 1]!, p[a + 2]!];
  const [ux, uy, uz] = [p[b]! - ax, p[b + 1]! - ay, p[b + 2]! - az];
  const [vx, vy, vz] = [p[c]! - ax, p[c + 1]! - ay, p[c + 2]! - az];
  const [nx, ny, nz] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
  const q = of.positions;
  let [low, high] = [Infinity, -Infinity];
  for (let k = 0; k < 3; k++) {
    const v = of.corners[s + k]!;
    const h = nx * (q[v]! - ax) + ny * (q[v + 1]! - ay) + nz * (q[v + 2]! - az);
    if (h < low) low = h;
    if (h > high) high = h;
  }
  const least = low > 0 ? low : high < 0 ? -high : 0;
  return least > 0 && least * least >= squared * (nx * nx + ny * ny + nz * nz);
}

/** Lowers the best by the three sides of one triangle to another. */
function sidesTo(of: SurfaceTree, s: number, to: SurfaceTree, t: number, best: Search): void {
  const p = of.positions;
  const [a, b, c] = [to.corners[t]!, to.corners[t + 1]!, to.corners[t + 2]!];
  for (let k = 0; k < 3; k++) {
    const [u, v] = [of.corners[s + k]!, of.corners[s + ((k + 1) % 3)]!];
    lowerToTriangle(best, p[u]!, p[u + 1]!, p[u + 2]!, p[v]!, p[v + 1]!, p[v + 2]!, to.positions, a, b, c);
  }
}
