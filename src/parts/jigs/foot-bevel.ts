import { hullOfPoints, type Solid } from '../../geometry/solid/solid.js';
import { add, along, cross, dot, scale, sub, unit, type Vec3 } from '../../geometry/vec3.js';

/** The end of a bar that lies on a flat of its skin. */
export interface LyingEnd {
  /** A point of the bar's axis, and a point of its end face. */
  readonly axis: Vec3;
  readonly face: Vec3;
  /** Unit: out of the end face, and up from the bed. */
  readonly out: Vec3;
  readonly up: Vec3;
  /** Height of the axis over the flat, and half the width of the bevel, mm. */
  readonly height: number;
  readonly half: number;
}

/** How far the wedge stands out of the bar, mm. */
const OUTSIDE = 0.5;

/**
 * What to cut off where the flat under a lying bar meets its end face, `size` mm along both: the first layer, pressed wide, would
 * else stand out of the face that meets the next part. The flat's long sides need none: the round skin leans out over them further
 * than any layer bulges.
 */
export function footBevel({ axis, face, out, up, height, half }: LyingEnd, size: number): Solid {
  const level = unit(sub(out, scale(up, dot(out, up))));
  const slope = dot(out, up) / dot(out, level);
  // the edge: below the axis by its height, and as far out as the face is there
  const below = along(axis, up, -height);
  const edge = along(below, level, dot(sub(face, below), out) / dot(out, level));
  const inner = along(edge, level, -size);
  const upper = add(edge, scale(sub(up, scale(level, slope)), size));
  const way = unit(sub(upper, inner));
  const [low, high] = [along(inner, way, -OUTSIDE), along(upper, way, OUTSIDE)];
  const corner = along(along(high, up, -size - 2 * OUTSIDE), level, OUTSIDE);
  const across = scale(unit(cross(up, level)), half);
  return hullOfPoints([low, high, corner].flatMap((p) => [add(p, across), sub(p, across)]));
}
