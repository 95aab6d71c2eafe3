import type { Mesh } from './mesh.js';

/**
 * What a closed mesh hides of the plane below it: directed edges whose winding number is over zero just under the mesh.
 * They bound the triangles that face up, so the number counts the skins above a point; edges between two of them cancel.
 */
export interface Shadow {
  /** x, y of the start and x, y of the end of every edge in turn, mm. */
  readonly edges: Float64Array;
}

/** The shadow of a closed mesh along z. */
export function shadowOf(mesh: Mesh): Shadow {
  const { positions: p, triangles } = mesh;
  const points = p.length / 3;
  const open = new Map<number, readonly [number, number]>();
  const add = (a: number, b: number): void => {
    if (!open.delete(b * points + a)) open.set(a * points + b, [a, b]);
  };
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [triangles[t]!, triangles[t + 1]!, triangles[t + 2]!];
    const [x, y] = [p[3 * a]!, p[3 * a + 1]!];
    const up = (p[3 * b]! - x) * (p[3 * c + 1]! - y) - (p[3 * b + 1]! - y) * (p[3 * c]! - x);
    if (!(up > 0)) continue;
    add(a, b);
    add(b, c);
    add(c, a);
  }
  const edges = [...open.values()].flatMap(([a, b]) => [p[3 * a]!, p[3 * a + 1]!, p[3 * b]!, p[3 * b + 1]!]);
  return { edges: Float64Array.from(edges) };
}

/** The shadow turned about the origin, rad, counter-clockwise; quarter turns are exact when given as cosine and sine. */
export function turnedShadow({ edges }: Shadow, cos: number, sin: number): Shadow {
  const turned = new Float64Array(edges.length);
  for (let i = 0; i < edges.length; i += 2) {
    turned[i] = edges[i]! * cos - edges[i + 1]! * sin;
    turned[i + 1] = edges[i]! * sin + edges[i + 1]! * cos;
  }
  return { edges: turned };
}

/** Lowest and highest x and y, mm. */
export interface ShadowBox {
  readonly low: readonly [x: number, y: number];
  readonly high: readonly [x: number, y: number];
}

/** Throws RangeError for a shadow without edges. */
export function shadowBox({ edges }: Shadow): ShadowBox {
  if (edges.length === 0) throw new RangeError('a mesh without a face that looks up has no shadow');
  let [left, bottom, right, top] = [Infinity, Infinity, -Infinity, -Infinity];
  for (let i = 0; i < edges.length; i += 2) {
    const [x, y] = [edges[i]!, edges[i + 1]!];
    if (x < left) left = x;
    if (x > right) right = x;
    if (y < bottom) bottom = y;
    if (y > top) top = y;
  }
  return { low: [left, bottom], high: [right, top] };
}

/**
 * What lines along x, at y = `first` and every `step` mm above, cross of the shadow: for each, start and end of every stretch
 * within it in turn, x rising, mm.
 */
export function stretchesOn({ edges }: Shadow, first: number, step: number, lines: number): number[][] {
  const crossings: Crossing[][] = Array.from({ length: lines }, () => []);
  for (let i = 0; i < edges.length; i += 4) {
    const [x0, y0, x1, y1] = [edges[i]!, edges[i + 1]!, edges[i + 2]!, edges[i + 3]!];
    if (y0 === y1) continue;
    const [low, high] = y0 < y1 ? [y0, y1] : [y1, y0];
    // a line through an edge's lower end crosses it, one through its upper end does not: rings are crossed in pairs
    const last = Math.min(lines - 1, Math.ceil((high - first) / step) - 1);
    for (let k = Math.max(0, Math.ceil((low - first) / step)); k <= last; k++) {
      const y = first + k * step;
      // counter-clockwise rings run down on their left
      crossings[k]!.push({ x: x0 + ((y - y0) / (y1 - y0)) * (x1 - x0), turn: y1 < y0 ? 1 : -1 });
    }
  }
  return crossings.map(stretchesOf);
}

interface Crossing {
  readonly x: number;
  /** By how much the winding number rises there. */
  readonly turn: number;
}

function stretchesOf(crossings: Crossing[]): number[] {
  crossings.sort((a, b) => a.x - b.x);
  const stretches: number[] = [];
  let winding = 0;
  for (const { x, turn } of crossings) {
    if (winding === 0) stretches.push(x);
    winding += turn;
    if (winding === 0) stretches.push(x);
  }
  return stretches;
}

/** Area of the shadow, mm2, by lines `spacing` mm apart at most: exact across each line, the midpoint rule between them. */
export function shadowArea(shadow: Shadow, spacing = 0.25): number {
  const { low, high } = shadowBox(shadow);
  const lines = Math.max(1, Math.ceil((high[1] - low[1]) / spacing));
  const step = (high[1] - low[1]) / lines;
  let area = 0;
  for (const at of stretchesOn(shadow, low[1] + step / 2, step, lines)) {
    for (let i = 0; i < at.length; i += 2) area += (at[i + 1]! - at[i]!) * step;
  }
  return area;
}
