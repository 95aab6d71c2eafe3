import { type Side, sideBetween } from '../outline/sides.js';
import { distance2, type Vec2 } from '../vec2.js';
import type { Drawn, Reading } from './curves.js';
import type { DxfEntityTags } from './file.js';
import { bounded, neededAt, numberAt, seenFromBelow } from './groups.js';

interface Vertex {
  readonly at: Vec2;
  readonly bulge: number;
}

/** Vertices this close, mm, are one: a first vertex repeated at the end of a closed polyline. */
const ONE_POINT = 1e-6;

/** Arcs nearer to a full turn than this bulge have no sure place. */
const MOST_BULGE = 1000;

/** Group 70 of a polyline: closed; a line in space; a mesh; many faces. */
const FLAG = { closed: 1, space: 8, mesh: 16, faces: 64 } as const;

/** Group 70 of a vertex: the control point of a smoothed polyline, not a point on it. */
const FRAME = 16;

/** A polyline as LWPOLYLINE: vertices one after another in the entity's own groups. */
export function drawLwpolyline(e: DxfEntityTags, { scale }: Reading): Drawn {
  const vertices: { x: number; y: number | null; bulge: number }[] = [];
  for (const tag of e.tags) {
    const last = vertices.at(-1);
    if (tag.code === 10) vertices.push({ x: bounded(tag), y: null, bulge: 0 });
    else if (tag.code === 20 && last !== undefined) last.y = bounded(tag);
    else if (tag.code === 42 && last !== undefined) last.bulge = bounded(tag);
  }
  const stated = numberAt(e, 90);
  if (stated !== null && stated !== vertices.length) {
    throw new RangeError(`${e.name} says ${stated} vertices and has ${vertices.length}`);
  }
  const flags = numberAt(e, 70) ?? 0;
  return drawn(
    e,
    vertices.map(({ x, y, bulge }, i) => {
      if (y === null) throw new RangeError(`${e.name}: vertex ${i + 1} has no y (group 20)`);
      return { at: [x * scale, y * scale], bulge };
    }),
    (flags & FLAG.closed) !== 0,
  );
}

/** A polyline in the old form, with its vertices as entities of their own. */
export function drawPolyline(e: DxfEntityTags, { scale }: Reading): Drawn {
  const flags = numberAt(e, 70) ?? 0;
  if ((flags & (FLAG.mesh | FLAG.faces)) !== 0) throw new RangeError(`${e.name} is a mesh, not a line`);
  const points = e.vertices.filter((v) => ((numberAt(v, 70) ?? 0) & FRAME) === 0);
  if ((flags & FLAG.space) !== 0) {
    const heights = points.map((v) => numberAt(v, 30) ?? 0);
    const odd = heights.findIndex((z) => Math.abs(z - heights[0]!) > 1e-6);
    if (odd >= 0) throw new RangeError(`${e.name} does not lie flat: ${points[odd]!.name} has another z`);
  }
  return drawn(
    e,
    points.map((v) => ({
      at: [neededAt(v, 10, 'x') * scale, neededAt(v, 20, 'y') * scale],
      bulge: numberAt(v, 42) ?? 0,
    })),
    (flags & FLAG.closed) !== 0,
  );
}

function drawn(e: DxfEntityTags, vertices: readonly Vertex[], closed: boolean): Drawn {
  if (vertices.length < 2) throw new RangeError(`${e.name} has ${vertices.length} vertices; a line needs two`);
  const round = vertices.findIndex((v) => Math.abs(v.bulge) > MOST_BULGE);
  if (round >= 0) throw new RangeError(`${e.name}: vertex ${round + 1} has a bulge of ${vertices[round]!.bulge}`);
  const way = seenFromBelow(e) ? -1 : 1;
  const at = ({ at: [x, y] }: Vertex): Vec2 => [x * way, y];
  const count = closed ? vertices.length : vertices.length - 1;
  const sides = Array.from({ length: count }, (_, i): Side => {
    const v = vertices[i]!;
    return sideBetween(at(v), at(vertices[(i + 1) % vertices.length]!), v.bulge * way);
  }).filter((s) => distance2(s.from, s.to) > ONE_POINT);
  return { sides, closed, error: 0 };
}
