import type { Vec2 } from '../geometry/vec2.js';
import { along, cross, dot, scale, unit, type Vec3 } from '../geometry/vec3.js';
import type { Collector } from '../parts/collector/collector.js';
import { flowStretches } from '../parts/collector/merge-flow.js';
import type { CollectorGeometry } from '../parts/collector/merge-geometry.js';
import type { View } from './svg/view.js';

/** Height above the axis the inlets' skins reach at the inlet plane, or at the merge's end, mm. */
const edgesOf = ({ cuts }: CollectorGeometry, r: number): { up: number; down: number }[] =>
  cuts.map(({ frame: { origin, z } }) => {
    const tilt = Math.hypot(z[0], z[2]);
    return { up: origin[0] + (r * Math.abs(z[2])) / tilt, down: origin[0] - (r * Math.abs(z[2])) / tilt };
  });

/** Highest place of a collector above its axis, inlet 1 up, mm; `r` is the radius of its inlets. */
export const highest = (g: CollectorGeometry, r: number): number =>
  Math.max(g.outletOutside, ...edgesOf(g, r).map((e) => e.up), ...mergeEdges(g, r));

/** Lowest place, mm. */
export const lowest = (g: CollectorGeometry, r: number): number =>
  Math.min(-g.outletOutside, ...edgesOf(g, r).map((e) => e.down), ...mergeEdges(g, r));

/** Highest and lowest of the joined section at the merge's end, mm. */
function mergeEdges(g: CollectorGeometry, r: number): [number, number] {
  const reach = r / Math.cos(g.mergeHalfAngle);
  const middles = g.cuts.map(({ frame: { origin } }) => {
    const l = Math.hypot(origin[0], origin[1]);
    return l < 1e-9 ? 0 : (g.mergeRadius * origin[0]) / l;
  });
  return [Math.max(...middles) + reach, Math.min(...middles) - reach];
}

/**
 * Both edges of a collector from its merge's end to its outlet as seen from the side, inlet 1 up: places along the axis and above it,
 * mm, from the end of the merge; of its outside or its bore.
 */
export function shellEdges(
  g: CollectorGeometry,
  of: 'outside' | 'bore',
): { readonly up: Vec2[]; readonly down: Vec2[] } {
  const begin = of === 'bore' ? g.bore : g.outside - g.coneWall < g.bore ? g.outside : g.bore + g.coneWall;
  const outlet = of === 'bore' ? g.outletBore : g.outletOutside;
  const { coneEnd, throat } = g;
  const behind: Vec2[] = [
    [coneEnd.z, coneEnd[of]],
    ...(throat === null
      ? []
      : ([
          [throat.to, throat[of]],
          [throat.diffuserEnd, outlet],
        ] as Vec2[])),
    [g.totalLength, outlet],
  ];
  const [up, down] = mergeEdges(g, begin);
  return {
    up: [[g.mergeLength, up], ...behind],
    down: [[g.mergeLength, down], ...behind.map(([z, x]): Vec2 => [z, -x])],
  };
}

/** Where the stretches of a collector end along its axis, mm, from the inlet plane on. */
export const lengthStops = (g: CollectorGeometry): number[] => [0, ...flowStretches(g).map((s) => s.to)];

/** Looking along the gas on the inlets: up is the world's up, or away from the head where the collector stands upright. */
export function endView({ plan: { frame } }: Pick<Collector, 'plan'>): { view: View; up: string } {
  const [up, words]: [Vec3, string] =
    Math.abs(frame.z[1]) < 0.9 ? [[0, 1, 0], 'up'] : [[0, 0, 1], 'away from the head'];
  const flat = unit(along(up, frame.z, -dot(up, frame.z)));
  const towards = scale(frame.z, -1);
  return { view: { title: 'Inlets', right: cross(flat, towards), up: flat, towards }, up: words };
}
