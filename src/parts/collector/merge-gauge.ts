import { type Frame, WORLD } from '../../geometry/frame.js';
import { PARALLEL } from '../../geometry/merge/end.js';
import { difference, hullOfPoints, intersection, placed, type Solid, union } from '../../geometry/solid/solid.js';
import { bar, box } from '../../geometry/solid/solid-shapes.js';
import { textSolid, textStrokes } from '../../geometry/solid/text-solid.js';
import type { Vec3 } from '../../geometry/vec3.js';
import type { JigPlan } from '../../params/plan.js';
import type { SolidPart } from '../part.js';
import { printedPart } from '../printed-part.js';
import type { Collector } from './collector.js';
import type { CollectorGeometry } from './merge-geometry.js';
import { closedAt } from './merge-ring.js';

/** Plastic under the lowest edge of a tube, and beyond the tubes outwards where their numbers stand, mm. */
const FLOOR = 5;
const MARGIN = 14;

/** Height of a number, and how far it stands up, mm. */
const NUMBER = 9;
const RAISED = 0.8;

/** Height of the cradles over the inlet plane as a share of the tubes' diameter, and of the way to where the tubes meet. */
const HEIGHT = 0.9;
const BELOW_POINT = 0.7;

/** How far the cradles' core reaches beyond the ring of the tubes' axes, as a share of their radius. */
const FINS = 0.9;

/** Height of the cradles over the inlet plane, mm: of three tubes and more well below where they meet, so that the core keeps its strength. */
export function cradleHeight(g: CollectorGeometry): number {
  const high = 2 * g.outside * HEIGHT;
  if (g.inlets < 3 || g.mergeHalfAngle < PARALLEL) return high;
  return Math.min(high, Math.max(g.outside / 2, closedAt(g, g.outside) * BELOW_POINT));
}

/**
 * The merge gauge in the collector's frame: a floor with a seat square to every tube at its inlet, and between the tubes a core
 * with a half-round cradle for each, open outwards, since cut tubes can only be laid in from the side. The cradles are the
 * tubes' outsides and `fit` mm more, at the true tilt. The numbers of the inlets stand on the seats.
 */
function gaugeSolid(g: CollectorGeometry, fit: number): Solid {
  const radius = g.outside + fit;
  const top = cradleHeight(g);
  const tilt = g.mergeHalfAngle;
  const seatTop = (g.outside + MARGIN) * Math.sin(tilt) + 0.5;
  const low = -g.outside * Math.sin(tilt) - FLOOR;
  const reach = g.ringRadius + g.outside * FINS;
  const floor = bar(g.ringRadius + g.outside + MARGIN, low, seatTop);
  const core = intersection(bar(reach, low, top), axesPolygon(g, low, top));
  const lanes = g.cuts.map((c) => placed(lane(radius, 2 * (top - low) + reach, 3 * reach), c.frame));
  const numbers = g.cuts.map((c, i) => placed(number(String(i + 1), g.outside), c.frame));
  return union(difference(union(floor, core), ...lanes), ...numbers);
}

/** What a tube laid in from outside sweeps, in its inlet's frame. */
function lane(radius: number, along: number, out: number): Solid {
  return union(bar(radius, 0, along), box([0, -radius, 0], [out, radius, along]));
}

/** An inlet's number on its seat, beyond the tube, read from outside with the gas up. */
function number(text: string, outside: number): Solid {
  const strokes = textStrokes(text, NUMBER);
  const at: Frame = { origin: [outside + MARGIN / 2 + 0.5, 0, 0], x: [0, 1, 0], y: [-1, 0, 0], z: [0, 0, 1] };
  return placed(textSolid(strokes, -RAISED, RAISED), at);
}

/** What lies inside the tangent planes through the tubes' axes, between two heights: a frustum over a regular polygon, over a strip for two. */
function axesPolygon(g: CollectorGeometry, from: number, to: number): Solid {
  const n = g.inlets;
  const corners = (z: number): Vec3[] => {
    const apothem = g.ringRadius - z * Math.tan(g.mergeHalfAngle);
    if (n === 2) {
      const half = 2 * (g.ringRadius + g.outside);
      return [-1, 1].flatMap((sx) => [-1, 1].map((sy): Vec3 => [sx * apothem, sy * half, z]));
    }
    return Array.from({ length: n }, (_, i): Vec3 => {
      const a = (2 * Math.PI * (i + 0.5)) / n;
      const r = apothem / Math.cos(Math.PI / n);
      return [r * Math.cos(a), r * Math.sin(a), z];
    });
  };
  return hullOfPoints([...corners(from), ...corners(to)]);
}

/** The gauge of a collector's merge; none for a single inlet. */
export function mergeGauge({ plan, geometry, part }: Collector, { bed, fit, chamfer }: JigPlan): SolidPart[] {
  if (geometry.inlets < 2) return [];
  return [
    printedPart(
      {
        name: `${part.name}-gauge`,
        kind: 'merge-gauge',
        title: `Gauge of the merge of collector ${plan.name}: lay the ${geometry.inlets} cut tubes into the cradles, ends on the seats, and check how they meet; take it out before welding`,
        solid: gaugeSolid(geometry, fit),
        at: plan.frame,
        up: WORLD,
        chamfer,
      },
      bed,
    ),
  ];
}
