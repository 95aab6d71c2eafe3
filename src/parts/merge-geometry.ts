import type { Frame } from '../geometry/frame.js';
import { WORLD } from '../geometry/frame.js';
import { inletFrames, ringRadius } from '../geometry/inlet-ring.js';
import { mergeEnd, PARALLEL } from '../geometry/merge-end.js';
import type { Plane } from '../geometry/plane.js';
import { dot, sub } from '../geometry/vec3.js';
import { inletCount } from '../params/inlet-tube.js';
import type { CollectorPlan } from '../params/plan.js';

/** The tube that arrives at the inlets, mm. */
export interface InletTube {
  readonly od: number;
  readonly wall: number;
}

/** Where one inlet's tube stands and how it is cut to meet its neighbours. */
export interface InletCut {
  /** Frame of the inlet in the collector's frame; z is the way of the gas. */
  readonly frame: Frame;
  /** The two planes through the collector's axis that cut the tube, collector frame; normals point to the side that is kept. Empty for one inlet. */
  readonly planes: readonly Plane[];
  /** Angle between the tube's axis and either plane, rad: sin = sin(merge half-angle) sin(pi / inlets). 0 for one inlet or parallel tubes. */
  readonly angle: number;
  /** Distance along the tube's outside from its inlet end to where a plane first touches it, mm; null when it never does. */
  readonly heel: number | null;
  /** The same to where the cuts meet on the collector's axis, mm; null for fewer than three inlets and for parallel tubes. */
  readonly spike: number | null;
  /** The same to where a cut runs out at the merge's end plane, mm; null when the tube is not cut. */
  readonly toe: number | null;
}

/** A collector in numbers, in its own frame: inlet plane z = 0, x to inlet 1, z with the gas; mm, mm2, rad. */
export interface CollectorGeometry {
  readonly inlets: number;
  readonly ringRadius: number;
  readonly mergeHalfAngle: number;
  /** Radius of the tubes' bore and outside, mm. */
  readonly bore: number;
  readonly outside: number;
  /** Distance from the inlet plane to the merge's end plane, where the cone begins, mm. */
  readonly mergeLength: number;
  /** Distance of the tubes' axes from the collector's axis there, mm. */
  readonly mergeRadius: number;
  readonly cuts: readonly InletCut[];
  readonly coneLength: number;
  readonly tail: number;
  /** Inlet plane to the end of the tail, mm. */
  readonly totalLength: number;
  readonly outletBore: number;
  readonly outletOutside: number;
  readonly coneWall: number;
  readonly area: {
    /** All inlets' bores together. */
    readonly inlets: number;
    /** Section of the joined bores at the merge's end, square to the collector's axis. */
    readonly mergeEnd: number;
    readonly outlet: number;
    /** Outlet over one inlet's bore. */
    readonly outletToInlet: number;
  };
}

/**
 * The collector as numbers: inlets on their ring, tilted inwards, until their bores have grown into one section; a cone from
 * that section to the outlet; a straight tail. Throws RangeError when a wall leaves no bore.
 */
export function collectorGeometry(plan: CollectorPlan, tube: InletTube): CollectorGeometry {
  const n = inletCount(plan);
  const outside = tube.od / 2;
  const bore = outside - tube.wall;
  const outletOutside = plan.outlet.od / 2;
  const outletBore = outletOutside - plan.outlet.wall;
  if (!(bore > 0 && outletBore > 0)) throw new RangeError(`collector ${plan.name}: a wall leaves no bore`);
  const alpha = n === 1 ? 0 : plan.mergeHalfAngle;
  const rho = ringRadius(n, tube.od, plan.inletGap);
  const { length, radius } = mergeEnd(n, tube.od, bore, plan.inletGap, alpha);
  const ring = { n, rho, alpha, outside, length, radius };
  const inletArea = Math.PI * bore * bore;
  const outletArea = Math.PI * outletBore * outletBore;
  return {
    inlets: n,
    ringRadius: rho,
    mergeHalfAngle: alpha,
    bore,
    outside,
    mergeLength: length,
    mergeRadius: radius,
    cuts: inletFrames(WORLD, n, rho, alpha).map((frame, i) => inletCut(frame, i, ring)),
    coneLength: plan.outlet.coneLength,
    tail: plan.outlet.tail,
    totalLength: length + plan.outlet.coneLength + plan.outlet.tail,
    outletBore,
    outletOutside,
    coneWall: plan.outlet.wall,
    area: {
      inlets: n * inletArea,
      mergeEnd: lobedArea(n, radius, alpha, bore),
      outlet: outletArea,
      outletToInlet: outletArea / inletArea,
    },
  };
}

interface Ring {
  readonly n: number;
  readonly rho: number;
  readonly alpha: number;
  readonly outside: number;
  readonly length: number;
  readonly radius: number;
}

function inletCut(frame: Frame, i: number, ring: Ring): InletCut {
  const { n, rho, alpha, outside, length, radius } = ring;
  if (n === 1) return { frame, planes: [], angle: 0, heel: null, spike: null, toe: null };
  const planes = [-1, 1].map((side): Plane => {
    const a = (2 * Math.PI * (i + side / 2)) / n;
    return { point: [0, 0, 0], normal: [side * Math.sin(a), -side * Math.cos(a), 0] };
  });
  const sinDelta = Math.sin(alpha) * Math.sin(Math.PI / n);
  const delta = Math.asin(sinDelta);
  if (alpha < PARALLEL) return { frame, planes, angle: 0, heel: null, spike: null, toe: null };
  const fromPlane = rho * Math.sin(Math.PI / n);
  const a = (2 * Math.PI * (i + 0.5)) / n;
  const valley = reach(Math.PI / n, radius, alpha, outside);
  const out = sub([valley * Math.cos(a), valley * Math.sin(a), length], frame.origin);
  return {
    frame,
    planes,
    angle: delta,
    heel: (fromPlane - outside * Math.cos(delta)) / sinDelta,
    spike: n < 3 ? null : (rho - outside * Math.cos(alpha)) / Math.sin(alpha),
    toe: dot(out, frame.z),
  };
}

/**
 * How far from the collector's axis the section of one tilted tube reaches, mm, in the direction `theta` rad off the tube's
 * own. The section is an ellipse, r / cos(alpha) outwards and r round the ring, about a centre `offset` mm from the axis.
 */
function reach(theta: number, offset: number, alpha: number, r: number): number {
  const [c, s, k] = [Math.cos(theta), Math.sin(theta), Math.cos(alpha)];
  const a = c * c * k * k + s * s;
  const b = c * k * k * offset;
  const d = b * b - a * (offset * offset * k * k - r * r);
  return d < 0 ? 0 : Math.max(0, (b + Math.sqrt(d)) / a);
}

/** Area the bores cover together in a plane square to the axis: n times the sector of one lobe, by Simpson's rule, to 1e-6 of it. */
function lobedArea(n: number, offset: number, alpha: number, r: number): number {
  if (n === 1) return Math.PI * r * r;
  if (offset * Math.sin(Math.PI / n) >= r) return (n * Math.PI * r * r) / Math.cos(alpha);
  const steps = 2_000;
  const h = Math.PI / n / steps;
  let sum = 0;
  for (let i = 0; i <= steps; i++) {
    const weight = i === 0 || i === steps ? 1 : i % 2 === 1 ? 4 : 2;
    sum += weight * reach(i * h, offset, alpha, r) ** 2;
  }
  return (n * sum * h) / 3;
}
