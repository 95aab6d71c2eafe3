import type { Vec2 } from '../../geometry/vec2.js';
import { dot, type Vec3 } from '../../geometry/vec3.js';

/** A direction of looking: page right, page up, and towards the eye, unit vectors of the world. */
export interface View {
  readonly title: string;
  readonly right: Vec3;
  readonly up: Vec3;
  readonly towards: Vec3;
}

export const VIEWS: readonly View[] = [
  { title: 'Front: looking at the head', right: [1, 0, 0], up: [0, 1, 0], towards: [0, 0, 1] },
  { title: 'Side: from the last cylinder', right: [0, 0, -1], up: [0, 1, 0], towards: [1, 0, 0] },
  { title: 'Top: looking down', right: [1, 0, 0], up: [0, 0, -1], towards: [0, 1, 0] },
];

/** A world point on the page, mm, y up. */
export const onPage = (view: View, p: Vec3): Vec2 => [dot(view.right, p), dot(view.up, p)];

/** How near the eye a world point is, mm. */
export const nearness = (view: View, p: Vec3): number => dot(view.towards, p);
