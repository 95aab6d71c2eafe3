import type { Mesh } from './mesh.js';
import { weldExact } from './weld.js';

/**
 * The mesh with every point moved to the nearest point of a cubic grid of `spacing` mm, points that fall together made one,
 * and everything that collapses on the way taken out, so that it stays closed: triangles whose corners fell together go,
 * two triangles lying back to back cancel, and a triangle whose corners fell on one line gives its long side's neighbour
 * the corner in between. All tests are exact: grid coordinates are whole numbers.
 * Throws Error when it cannot come to rest, and RangeError for coordinates beyond 2^25 grid steps.
 */
export function snapMesh(mesh: Mesh, spacing: number): Mesh {
  const steps = mesh.positions.map((v) => Math.round(v / spacing));
  if (steps.some((v) => !(Math.abs(v) <= 2 ** 25))) {
    throw new RangeError(`coordinates do not fit a grid of ${spacing} mm`);
  }
  const welded = weldExact({ positions: steps, triangles: mesh.triangles });
  const triangles = settle(welded);
  return weldExact({
    positions: welded.positions.map((v) => v * spacing),
    triangles: Uint32Array.from(triangles.flat()),
  });
}

type Triangle = [a: number, b: number, c: number];

function settle({ positions, triangles }: Mesh): Triangle[] {
  let list: Triangle[] = [];
  for (let t = 0; t < triangles.length; t += 3) list.push([triangles[t]!, triangles[t + 1]!, triangles[t + 2]!]);
  for (let pass = 0; pass < 100; pass++) {
    list = withoutBackToBack(
      list.filter(([a, b, c]) => a !== b && b !== c && c !== a),
      positions.length / 3,
    );
    const flat = list.flatMap((t, i) => (isOnLine(positions, t) ? [i] : []));
    if (flat.length === 0) return list;
    list = withFlatOnesFlipped(positions, list, flat);
  }
  throw new Error('a mesh does not come to rest on the grid');
}

/** Pairs of triangles over the same three points that face opposite ways enclose nothing: both go. */
function withoutBackToBack(list: readonly Triangle[], points: number): Triangle[] {
  // by the directed side from the lowest point on: as good as always one triangle
  const facing = new Map<number, number[]>();
  const gone = new Set<number>();
  list.forEach(([a, b, c], i) => {
    const low = Math.min(a, b, c);
    const [second, third] = low === a ? [b, c] : low === b ? [c, a] : [a, b];
    const others = facing.get(low * points + third);
    const at = others?.findLastIndex((k) => list[k]!.includes(second)) ?? -1;
    if (at >= 0) {
      gone.add(i).add(others!.splice(at, 1)[0]!);
      return;
    }
    const side = low * points + second;
    const same = facing.get(side);
    if (same) same.push(i);
    else facing.set(side, [i]);
  });
  return list.filter((_, i) => !gone.has(i));
}

/** Every flat triangle a-b-c with b between a and c, and its neighbour c-a-d, become a-b-d and b-c-d, one flip a triangle a pass. */
function withFlatOnesFlipped(positions: Float64Array, list: Triangle[], flat: readonly number[]): Triangle[] {
  const points = positions.length / 3;
  const byEdge = new Map<number, number[]>();
  list.forEach(([a, b, c], i) => {
    for (const key of [a * points + b, b * points + c, c * points + a]) {
      const at = byEdge.get(key);
      if (at) at.push(i);
      else byEdge.set(key, [i]);
    }
  });
  const result = [...list];
  const touched = new Set<number>();
  for (const i of flat) {
    if (touched.has(i)) continue;
    const [a, b, c] = longSideLast(positions, list[i]!);
    const j = byEdge.get(a * points + c)?.find((k) => k !== i && !touched.has(k));
    if (j === undefined) continue;
    const d = list[j]!.find((p) => p !== a && p !== c)!;
    touched.add(i).add(j);
    result[i] = [a, b, d];
    result[j] = [b, c, d];
  }
  if (touched.size === 0) throw new Error('a flat triangle has no neighbour: the mesh is open');
  return result;
}

/** The same triangle turned so that its longest side runs from its third corner to its first. */
function longSideLast(p: Float64Array, [a, b, c]: Triangle): Triangle {
  const [ab, bc, ca] = [span(p, a, b), span(p, b, c), span(p, c, a)];
  if (ca >= ab && ca >= bc) return [a, b, c];
  return ab >= bc ? [b, c, a] : [c, a, b];
}

function span(p: Float64Array, i: number, j: number): number {
  return (p[3 * i]! - p[3 * j]!) ** 2 + (p[3 * i + 1]! - p[3 * j + 1]!) ** 2 + (p[3 * i + 2]! - p[3 * j + 2]!) ** 2;
}

function isOnLine(p: Float64Array, [a, b, c]: Triangle): boolean {
  const [ux, uy, uz] = [p[3 * b]! - p[3 * a]!, p[3 * b + 1]! - p[3 * a + 1]!, p[3 * b + 2]! - p[3 * a + 2]!];
  const [vx, vy, vz] = [p[3 * c]! - p[3 * a]!, p[3 * c + 1]! - p[3 * a + 1]!, p[3 * c + 2]! - p[3 * a + 2]!];
  return uy * vz === uz * vy && uz * vx === ux * vz && ux * vy === uy * vx;
}
