import type { ControlPolygon } from '../../src/geometry/path/control-polygon.js';
import type { Vec3 } from '../../src/geometry/vec3.js';
import { tubeShape } from './dense-tube.js';

/** Points and triangles of a binary STL, points of equal coordinates made one; with none of the program's own geometry. */
export interface StlBody {
  readonly points: readonly Vec3[];
  readonly triangles: readonly (readonly [number, number, number])[];
}

/** The bodies of a binary STL: triangles that hang together. */
export function stlBodies(bytes: Uint8Array): StlBody[] {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const points: Vec3[] = [];
  const numbers = new Map<string, number>();
  const point = (at: number): number => {
    const p = [0, 4, 8].map((k) => view.getFloat32(at + k, true)) as unknown as Vec3;
    const key = p.join();
    if (!numbers.has(key)) numbers.set(key, points.push(p) - 1);
    return numbers.get(key)!;
  };
  const triangles = Array.from({ length: view.getUint32(80, true) }, (_, t) => {
    const at = 84 + 50 * t + 12;
    return [point(at), point(at + 12), point(at + 24)] as const;
  });
  return partsOf(triangles).map((own) => ({ points, triangles: own }));
}

type Triangle = readonly [number, number, number];

/** Triangles in groups that share edges: bodies that touch may have points in common. */
function partsOf(triangles: readonly Triangle[]): Triangle[][] {
  const root = triangles.map((_, i) => i);
  const find = (i: number): number => {
    let r = i;
    while (root[r] !== r) r = root[r] = root[root[r]!]!;
    return r;
  };
  const owner = new Map<string, number>();
  for (const [t, [a, b, c]] of triangles.entries()) {
    for (const [i, j] of [
      [a, b],
      [b, c],
      [c, a],
    ] as const) {
      owner.set(`${i} ${j}`, t);
      const other = owner.get(`${j} ${i}`);
      if (other !== undefined) root[find(t)] = find(other);
    }
  }
  const groups = new Map<number, Triangle[]>();
  for (const [t, triangle] of triangles.entries()) {
    const key = find(t);
    if (!groups.has(key)) groups.set(key, []);
    groups.get(key)!.push(triangle);
  }
  return [...groups.values()];
}

/** Where one stands on a centreline after `run` mm, by its intersection points and radii alone. */
export function placeAt(polygon: ControlPolygon, run: number): { readonly point: Vec3; readonly direction: Vec3 } {
  const { straights, angles, directions } = tubeShape(polygon);
  let point = polygon.points[0]!;
  let left = run;
  for (const [i, u] of directions.entries()) {
    const angle = angles[i];
    if (left <= straights[i]! || angle === undefined) return { point: mix(point, u, left), direction: u };
    left -= straights[i]!;
    point = mix(point, u, straights[i]!);
    const v = directions[i + 1]!;
    const n = unit(mix(v, u, -dot(u, v)));
    const r = polygon.clr[i]!;
    const turn = Math.min(angle, left / r);
    point = mix(mix(point, u, r * Math.sin(turn)), n, r * (1 - Math.cos(turn)));
    if (left <= r * angle) {
      return {
        point,
        direction: mix([u[0] * Math.cos(turn), u[1] * Math.cos(turn), u[2] * Math.cos(turn)], n, Math.sin(turn)),
      };
    }
    left -= r * angle;
  }
  throw new RangeError(`no place at ${run} mm`);
}

/** Square to a tube's end plane, how far its corners may be from it, mm: what 32-bit floats round. */
const FLAT = 2e-4;
const ROUND = 2e-3;

/**
 * Length of a stretch of tube by the volume inside one of its skins, of `radius` mm, from one place to another. Its section is a polygon
 * of n corners on the true circle, of area A; between two stations a chord c apart and turned by d to each other the skin encloses
 * A c cos(d / 2) (every corner's chord stands square to the plane half way), while the centreline's arc is c (d / 2) / sin(d / 2). So the
 * length is V / A and, for every pair of stations, the second less the first over A: Pappus, with the facets accounted for exactly.
 * Null when the body has no such skin.
 */
export function lengthByVolume(
  body: StlBody,
  radius: number,
  from: ReturnType<typeof placeAt>,
  to: ReturnType<typeof placeAt>,
): number | null {
  const { points } = body;
  const onEnd = (i: number, end: ReturnType<typeof placeAt>): boolean =>
    Math.abs(dot(minus(points[i]!, end.point), end.direction)) < FLAT && distance(points[i]!, end.point) < 2 * radius;
  const onRim = (i: number, end: ReturnType<typeof placeAt>): boolean =>
    onEnd(i, end) && Math.abs(distance(points[i]!, end.point) - radius) < ROUND;
  const sides = body.triangles.filter((t) => !t.every((i) => onEnd(i, from)) && !t.every((i) => onEnd(i, to)));
  const skin = partsOf(sides).find((part) => part.some((t) => t.some((i) => onRim(i, from))));
  if (!skin?.some((t) => t.some((i) => onRim(i, to)))) return null;
  const rim = new Set(skin.flat().filter((i) => onRim(i, from)));
  const n = rim.size;
  const area = (n / 2) * radius ** 2 * Math.sin((2 * Math.PI) / n);
  const rings = ringsFrom(rim, skin);
  if (rings.some((r) => r.length !== n)) throw new RangeError('a station has more or fewer corners than the first');
  let length = Math.abs(closedVolume(points, skin, from.point, to.point)) / area;
  const stations = rings.map((ring) => stationOf(ring.map((i) => points[i]!)));
  for (const [i, b] of stations.entries()) {
    const a = stations[i - 1];
    if (a === undefined) continue;
    const half = Math.atan2(size(cross(a.normal, b.normal)), Math.abs(dot(a.normal, b.normal))) / 2;
    const chord = distance(a.centre, b.centre);
    length += chord * ((half === 0 ? 1 : half / Math.sin(half)) - Math.cos(half));
  }
  return length;
}

/** Corners by their number of edges from the first ring. */
function ringsFrom(rim: ReadonlySet<number>, skin: readonly Triangle[]): number[][] {
  const near = new Map<number, Set<number>>();
  for (const t of skin) {
    for (const i of t) {
      if (!near.has(i)) near.set(i, new Set());
      for (const j of t) near.get(i)!.add(j);
    }
  }
  const seen = new Set(rim);
  const rings = [[...rim]];
  for (;;) {
    const next = new Set(rings.at(-1)!.flatMap((i) => [...near.get(i)!].filter((j) => !seen.has(j))));
    if (next.size === 0) return rings;
    for (const i of next) seen.add(i);
    rings.push([...next]);
  }
}

/** Middle of a ring of corners and a unit vector square to it. */
function stationOf(ring: readonly Vec3[]): { readonly centre: Vec3; readonly normal: Vec3 } {
  const sum = ring.reduce<Vec3>((s, p) => mix(s, p, 1), [0, 0, 0]);
  const centre: Vec3 = [sum[0] / ring.length, sum[1] / ring.length, sum[2] / ring.length];
  const a = minus(ring[0]!, centre);
  const normals = ring.map((p) => cross(a, minus(p, centre)));
  return { centre, normal: unit(normals.reduce((best, v) => (size(v) > size(best) ? v : best))) };
}

/** Volume inside a skin whose two rims are closed by fans about the given middles, mm3. */
function closedVolume(points: readonly Vec3[], skin: readonly Triangle[], from: Vec3, to: Vec3): number {
  const edges = new Set(skin.flatMap(([a, b, c]) => [`${a} ${b}`, `${b} ${c}`, `${c} ${a}`]));
  let six = 0;
  const add = (a: Vec3, b: Vec3, c: Vec3): void => {
    six += dot(minus(a, from), cross(minus(b, from), minus(c, from)));
  };
  for (const [a, b, c] of skin) add(points[a]!, points[b]!, points[c]!);
  for (const edge of edges) {
    const [a, b] = edge.split(' ').map(Number) as [number, number];
    if (edges.has(`${b} ${a}`)) continue;
    const p = points[a]!;
    add(points[b]!, p, distance(p, from) < distance(p, to) ? from : to);
  }
  return six / 6;
}

const mix = (a: Vec3, b: Vec3, k: number): Vec3 => [a[0] + k * b[0], a[1] + k * b[1], a[2] + k * b[2]];
const minus = (a: Vec3, b: Vec3): Vec3 => mix(a, b, -1);
const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const size = (v: Vec3): number => Math.hypot(...v);
const distance = (a: Vec3, b: Vec3): number => size(minus(a, b));
const unit = (v: Vec3): Vec3 => mix([0, 0, 0], v, 1 / size(v));
const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
