import modeling from '@jscad/modeling';
import { chordsRound } from '../chord.js';
import { CHORD_ERROR } from '../tolerance.js';
import { cross2, type Vec2 } from '../vec2.js';
import type { Vec3 } from '../vec3.js';
import { jscadPoint, meshFromGeom3 } from './jscad-mesh.js';
import { placed, type Solid, solidOf } from './solid.js';

const { cuboid, polygon } = modeling.primitives;
const { extrudeFromSlices, extrudeLinear, slice } = modeling.extrusions;

/** A box by its lowest and highest corner, mm. */
export function box(low: Vec3, high: Vec3): Solid {
  const size = jscadPoint([high[0] - low[0], high[1] - low[1], high[2] - low[2]]);
  const center = jscadPoint([(low[0] + high[0]) / 2, (low[1] + high[1]) / 2, (low[2] + high[2]) / 2]);
  return solidOf(meshFromGeom3(cuboid({ size, center })));
}

/** Whether the corners of a round stand on the true surface or its chords touch it from outside. */
export type RoundSide = 'corners-on' | 'chords-outside';

/**
 * Corners of a regular polygon that stands for a circle about the origin, counter-clockwise from +x. 'corners-on': the
 * polygon lies inside the circle by at most `error` mm. 'chords-outside': the circle lies inside the polygon, by as much.
 */
export function circlePoints(radius: number, error: number = CHORD_ERROR, side: RoundSide = 'corners-on'): Vec2[] {
  const n = chordsRound(radius, error);
  const r = side === 'corners-on' ? radius : radius / Math.cos(Math.PI / n);
  return Array.from({ length: n }, (_, i): Vec2 => {
    const a = (2 * Math.PI * i) / n;
    return [r * Math.cos(a), r * Math.sin(a)];
  });
}

/** A round bar along z from `from` to `to`, mm, with corners on the true surface; to a cone when `radiusTo` differs. */
export function bar(radius: number, from: number, to: number, radiusTo = radius, error: number = CHORD_ERROR): Solid {
  const points = circlePoints(Math.max(radius, radiusTo), error);
  const k = Math.max(radius, radiusTo);
  const ring = (r: number) => points.map(([x, y]): Vec2 => [(x * r) / k, (y * r) / k]);
  return loft([
    { z: from, points: ring(radius) },
    { z: to, points: ring(radiusTo) },
  ]);
}

/** A cross-section of a loft: a simple polygon, counter-clockwise, at a height z, mm. */
export interface Section {
  readonly z: number;
  readonly points: readonly Vec2[];
}

/** A solid through sections of equally many corners, from the lowest z to the highest. */
export function loft(sections: readonly Section[]): Solid {
  const slices = sections.map((s) => slice.fromPoints(s.points.map(([x, y]): [number, number, number] => [x, y, s.z])));
  return solidOf(meshFromGeom3(throughSlices(slices)));
}

type Slice = ReturnType<typeof slice.fromPoints>;

/** jscad's solid through ready-made slices of equally many edges, closed by flat caps. */
export function throughSlices(slices: readonly Slice[]): ReturnType<typeof extrudeFromSlices> {
  return extrudeFromSlices(
    {
      numberOfSlices: slices.length,
      callback: (_progress: number, i: number) => slices[i]!,
      repair: false,
    } as Parameters<typeof extrudeFromSlices>[0],
    slices[0]!,
  );
}

/** A prism over a simple polygon between two heights, mm. The polygon may run either way. */
export function prism(points: readonly Vec2[], from: number, to: number): Solid {
  const ccw = signedArea(points) > 0 ? points : [...points].reverse();
  const flat = polygon({ points: ccw.map(([x, y]): [number, number] => [x, y]) });
  const raised = solidOf(meshFromGeom3(extrudeLinear({ height: to - from }, flat)));
  return from === 0 ? raised : placed(raised, { origin: [0, 0, from], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] });
}

/** Area a polygon encloses, mm2; positive when it runs counter-clockwise. */
export function signedArea(points: readonly Vec2[]): number {
  let twice = 0;
  for (let i = 0; i < points.length; i++) twice += cross2(points[i]!, points[(i + 1) % points.length]!);
  return twice / 2;
}
