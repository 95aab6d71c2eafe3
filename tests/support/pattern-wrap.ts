import { type Frame, pointFrom } from '../../src/geometry/frame.js';
import { outlineBounds } from '../../src/geometry/outline/measure.js';
import { pointAlong, sidesOf } from '../../src/geometry/outline/sides.js';
import { circlePoints } from '../../src/geometry/solid/solid-shapes.js';
import type { Vec2 } from '../../src/geometry/vec2.js';
import type { Vec3 } from '../../src/geometry/vec3.js';
import type { Pattern } from '../../src/parts/patterns/pattern.js';

/** Points of a pattern's contour, `each` on every side, inside arcs too. */
export const contourPoints = (p: Pattern, each = 12): Vec2[] =>
  sidesOf(p.outline).flatMap((s) => Array.from({ length: each }, (_, k) => pointAlong(s, k / each)));

/** The point of a tube's face a pattern's point is laid on: angle 0 is the reference line, z the pattern's height. Worked from the drawing alone. */
export function laidBack(p: Pattern, [x, y]: Vec2, radius: number): Vec3 {
  const { from, to } = outlineBounds(p.outline);
  const zero = p.lines.find((l) => l.kind === 'reference')!.points[0]![0];
  const way = p.tube!.side === 'outside' ? 1 : -1;
  const phi = (way * (x - zero) * 2 * Math.PI) / (to[0] - from[0]);
  return [radius * Math.cos(phi), radius * Math.sin(phi), y];
}

/** Finely faceted ring of a tube in its frame. */
export const ringAt = (frame: Frame, radius: number, z: number, error: number): Vec3[] =>
  circlePoints(radius, error).map(([x, y]) => pointFrom(frame, [x, y, z]));
