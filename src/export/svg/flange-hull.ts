import { pointFrom } from '../../geometry/frame.js';
import { flattenOutline } from '../../geometry/outline/flatten.js';
import { pointHull } from '../../geometry/outline/point-hull.js';
import type { Vec2 } from '../../geometry/vec2.js';
import { dot } from '../../geometry/vec3.js';
import type { Plan } from '../../params/plan.js';
import type { FlangePart } from '../../parts/flange/flange.js';
import { onPage, type View } from './view.js';

/** A flange as seen in a view, page mm: its outline where it faces the eye, else the hull of its two faces. */
export function flangeHull(plan: Plan, flange: FlangePart, view: View): Vec2[] {
  const { frame } = plan.heads[flange.head]!;
  const outer = flattenOutline(flange.region.outer, 0.5);
  const face = (z: number): Vec2[] => outer.map(([x, y]) => onPage(view, pointFrom(frame, [x, y, z])));
  if (Math.abs(dot(view.towards, frame.z)) > 0.5) return face(flange.thickness);
  return pointHull([...face(0), ...face(flange.thickness)]);
}
