import { type Frame, frameAlong, pointFrom } from '../../geometry/frame.js';
import type { Mesh } from '../../geometry/mesh/mesh.js';
import { pointHull } from '../../geometry/outline/point-hull.js';
import type { Vec2 } from '../../geometry/vec2.js';
import { distance, dot, sub, unit, type Vec3 } from '../../geometry/vec3.js';
import type { KeepOut, Plan } from '../../params/plan.js';
import { onPage, type View } from './view.js';

/** What is kept free, as a picture shows it. */
export interface FreeShape {
  /** Null for what needs no name. */
  readonly name: string | null;
  /** 'solid' is kept-out space of its own, 'scan' what was measured, 'room' what a tool needs. */
  readonly kind: 'solid' | 'scan' | 'room';
  /** Outline on the page, mm, y up. */
  readonly hull: readonly Vec2[];
}

/** A plane seen edge-on: a point of it and its unit direction on the page, y up. */
export interface EdgeLine {
  readonly name: string;
  readonly point: Vec2;
  readonly direction: Vec2;
}

/** Most points of a scan that are looked at for its outline. */
const MOST_POINTS = 4000;

/** Sine of the largest angle between a plane and the way of looking at which it still counts as seen edge-on. */
const EDGE_ON = 0.02;

/** Everything with an outline that tubes keep away from. */
export function freeShapes({ keepOuts, access }: Plan, view: View): FreeShape[] {
  return [
    ...access.map(
      (a): FreeShape => ({
        name: null,
        kind: 'room',
        hull: pointHull(cylinderPoints(a.frame, a.diameter / 2, a.length).map((p) => onPage(view, p))),
      }),
    ),
    ...keepOuts.flatMap((k): FreeShape[] => {
      const points = pointsOf(k, view);
      if (points.length === 0) return [];
      return [{ name: k.name, kind: k.kind === 'mesh' ? 'scan' : 'solid', hull: pointHull(points) }];
    }),
  ];
}

/** The planes seen edge-on: ground, bonnet. */
export function edgeLines({ keepOuts }: Plan, view: View): EdgeLine[] {
  return keepOuts.flatMap((k) => {
    if (k.kind !== 'half-space' || Math.abs(dot(k.normal, view.towards)) > EDGE_ON) return [];
    const [x, y] = onPage(view, k.normal);
    const l = Math.hypot(x, y);
    return [{ name: k.name, point: onPage(view, k.point), direction: [-y / l, x / l] }];
  });
}

/** Points on the page whose hull is the outline of kept-out space; none for what has no end. */
function pointsOf(k: KeepOut, view: View): Vec2[] {
  const page = (points: readonly Vec3[]): Vec2[] => points.map((p) => onPage(view, p));
  switch (k.kind) {
    case 'half-space':
      return [];
    case 'box':
      return page(boxCorners(k.from, k.to));
    case 'cylinder':
      return page(cylinderPoints(frameAlong(k.from, unit(sub(k.to, k.from))), k.diameter / 2, distance(k.from, k.to)));
    case 'capsule':
      return page([k.from, k.to]).flatMap(([x, y]) => ring(k.diameter / 2).map(([u, v]): Vec2 => [x + u, y + v]));
    case 'mesh':
      return page(meshPoints(k.mesh));
  }
}

const boxCorners = (from: Vec3, to: Vec3): Vec3[] =>
  Array.from({ length: 8 }, (_, i) => [i & 1 ? to[0] : from[0], i & 2 ? to[1] : from[1], i & 4 ? to[2] : from[2]]);

const cylinderPoints = (frame: Frame, radius: number, length: number): Vec3[] =>
  [0, length].flatMap((z) => ring(radius).map(([x, y]) => pointFrom(frame, [x, y, z])));

const ring = (radius: number): Vec2[] =>
  Array.from({ length: 36 }, (_, i) => {
    const a = (Math.PI * i) / 18;
    return [radius * Math.cos(a), radius * Math.sin(a)];
  });

/** Points of a scan, evenly picked. */
function meshPoints({ positions }: Mesh): Vec3[] {
  const count = positions.length / 3;
  const step = Math.max(1, Math.ceil(count / MOST_POINTS));
  return Array.from({ length: Math.floor((count - 1) / step) + 1 }, (_, i) => {
    const at = 3 * step * i;
    return [positions[at]!, positions[at + 1]!, positions[at + 2]!];
  });
}
