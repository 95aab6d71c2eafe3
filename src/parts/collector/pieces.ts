import { WORLD } from '../../geometry/frame.js';
import { saddleSpan } from '../../geometry/merge/branch-axis.js';
import { PARALLEL } from '../../geometry/merge/end.js';
import { difference, placed, type Solid, trimmed, union } from '../../geometry/solid/solid.js';
import { bar } from '../../geometry/solid/solid-shapes.js';
import type { Vec3 } from '../../geometry/vec3.js';
import type { JigPlan } from '../../params/plan.js';
import type { SolidPart } from '../part.js';
import { printedPart } from '../printed-part.js';
import { type Collector, ON_OUTLET, smallerBy } from './collector.js';
import type { CollectorGeometry } from './merge-geometry.js';
import { closedAt, touchingAt } from './merge-ring.js';
import { collectorSolid } from './solid.js';

/** A collar either side of a cut: how far it stands out of the skin, its thickness at the face, and its pins, mm. Our own sizes. */
const COLLAR = { out: 9, thick: 5, taper: 8, pin: 2, pinLength: 6, relief: 0.6 } as const;

/** Angles of the pins about the axis, rad: unevenly spaced, so that the halves go together in one clocking only. */
const PINS = [0.3, 0.3 + (110 * Math.PI) / 180, 0.3 + (235 * Math.PI) / 180] as const;

/** Largest part of a length that is looked for when a cut must keep off something, mm. */
const STEP = 2;

/** Length of the collector on its own axis, the tilted inlets' edges and sleeves in front of the inlet plane included, mm: where it begins. */
export function frontOf(g: CollectorGeometry): number {
  const tilt = g.mergeHalfAngle;
  const sleeve = g.slip === null ? 0 : g.slip.overlap * Math.cos(tilt) + g.slip.outside * Math.sin(tilt);
  return -Math.max(g.inlets === 1 ? 0 : g.outside * Math.sin(tilt), sleeve);
}

/**
 * Where a collector too long for the bed is cut square to its axis, mm from the inlet plane, into as few pieces as can be, evenly
 * long but at places that leave every piece whole; null when there are none that do or the bed is too low.
 */
export function cutsAlong(g: CollectorGeometry, bedHeight: number): readonly number[] | null {
  const front = frontOf(g);
  const whole = g.totalLength - front;
  const room = bedHeight - COLLAR.pinLength - 1;
  if (room < 2 * (COLLAR.thick + COLLAR.taper)) return null;
  const count = Math.ceil(whole / room);
  for (let n = count; n <= count + 2; n++) {
    const cuts = Array.from({ length: n - 1 }, (_, i) => clearOf(g, front + (whole * (i + 1)) / n));
    const ends = [front, ...cuts, g.totalLength];
    if (ends.slice(1).every((z, i) => z - ends[i]! <= room && z - ends[i]! > 2 * COLLAR.thick)) return cuts;
  }
  return null;
}

/**
 * The place nearest to `z` where a collar meets neither the branch nor the inlets' sleeves, and not where the walls between the
 * bores hang by their inlet end alone: a cut there would set them free.
 */
function clearOf(g: CollectorGeometry, z: number): number {
  const half = COLLAR.thick + COLLAR.taper + 1;
  const taken: (readonly [number, number])[] = [];
  if (g.slip !== null) taken.push([Number.NEGATIVE_INFINITY, g.slip.land + half]);
  if (g.inlets > 2 && g.mergeHalfAngle > PARALLEL) taken.push([touchingAt(g, g.bore) - 1, closedAt(g, g.bore) + 1]);
  if (g.branch !== null) {
    const { at, angle, od, length, end } = g.branch;
    const [from] = saddleSpan(at, angle, od / 2, 0);
    const reach = end.origin[2] + (od / 2) * Math.sin(angle);
    taken.push([from - half, Math.max(reach, at + length * Math.cos(angle)) + half]);
  }
  for (let k = 0; ; k++) {
    const off = z + (k % 2 === 0 ? 1 : -1) * Math.ceil(k / 2) * STEP;
    if (!taken.some(([from, to]) => off > from && off < to)) return off;
  }
}

/** How far the collector's outside reaches from its axis within a collar's length of `z`, mm. */
function reachNear(g: CollectorGeometry, z: number): number {
  const at = (s: number): number => {
    const along = Math.min(Math.max(s, 0), g.mergeLength);
    const ring = g.inlets === 1 ? 0 : g.ringRadius - along * Math.tan(g.mergeHalfAngle);
    const merge = ring + (g.outside + Math.max(0, g.coneWall - (g.outside - g.bore))) / Math.cos(g.mergeHalfAngle);
    if (s < g.mergeLength) return merge;
    const t = Math.min(1, (s - g.mergeLength) / (g.coneEnd.z - g.mergeLength));
    const cone = merge + (g.coneEnd.outside - merge) * t;
    return s < g.coneEnd.z ? cone : Math.max(g.coneEnd.outside, s > (g.throat?.to ?? 0) ? g.outletOutside : 0);
  };
  const half = COLLAR.thick + COLLAR.taper;
  return Math.max(at(z - half), at(z), at(z + half));
}

/** The pieces' solids in the collector's frame, from the inlets to the outlet. */
function pieceSolids(g: CollectorGeometry, cuts: readonly number[], fit: number): Solid[] {
  const collars = cuts.flatMap((z) => collar(z, reachNear(g, z) + COLLAR.out));
  const whole = collectorSolid(g, ...collars);
  return Array.from({ length: cuts.length + 1 }, (_, i) => {
    const [front, back] = [cuts[i - 1], cuts[i]];
    const after = front === undefined ? whole : trimmed(whole, { point: [0, 0, front], normal: [0, 0, 1] });
    const between = back === undefined ? after : trimmed(after, { point: [0, 0, back], normal: [0, 0, -1] });
    const pinned = front === undefined ? between : union(between, ...pins(g, front, -COLLAR.pinLength, 1, COLLAR.pin));
    if (back === undefined) return pinned;
    return difference(pinned, ...pins(g, back, -COLLAR.pinLength - COLLAR.relief, 1, COLLAR.pin + fit));
  });
}

/** Collars on both sides of a cut: thick at the cut, tapering away so that the upper one prints without much support. */
function collar(z: number, radius: number): Solid[] {
  const { thick, taper, out } = COLLAR;
  return [
    bar(radius, z - thick, z + thick),
    bar(radius, z + thick, z + thick + taper, radius - out),
    bar(radius - out, z - thick - taper, z - thick, radius),
  ];
}

/** Pins' shapes about a cut, from `from` to `to` mm of it. */
function pins(g: CollectorGeometry, z: number, from: number, to: number, radius: number): Solid[] {
  const r = reachNear(g, z) + COLLAR.out / 2;
  return PINS.map((a) =>
    placed(bar(radius, from, to), { ...WORLD, origin: [r * Math.cos(a), r * Math.sin(a), z] as Vec3 }),
  );
}

/** A collector too large for the bed as pieces that go together by pins; none when it fits whole or cannot be cut so that its pieces fit. */
export function collectorPieces({ plan, geometry, part }: Collector, { bed, fit, chamfer }: JigPlan): SolidPart[] {
  if (part.tooBig === null) return [];
  const cuts = cutsAlong(geometry, bed[2]);
  if (cuts === null || cuts.length === 0) return [];
  return smallerBy(geometry, (g) => {
    const solids = pieceSolids(g, cuts, fit);
    return solids.map((solid, i) =>
      printedPart(
        {
          name: `${part.name}-piece-${i + 1}`,
          kind: 'collector-piece',
          title: `Collector ${plan.name}, piece ${i + 1} of ${solids.length} from the inlets: the pins go together in one way only`,
          solid,
          at: plan.frame,
          up: ON_OUTLET,
          dropBelow: 1,
          chamfer,
        },
        bed,
      ),
    );
  });
}
