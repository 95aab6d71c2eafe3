import type { Frame } from '../../geometry/frame.js';
import { PARALLEL } from '../../geometry/merge/end.js';
import type { Plane } from '../../geometry/plane.js';
import { dot, sub } from '../../geometry/vec3.js';

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

interface Ring {
  readonly n: number;
  readonly rho: number;
  readonly alpha: number;
  readonly outside: number;
  readonly length: number;
  readonly radius: number;
}

export function inletCut(frame: Frame, i: number, ring: Ring): InletCut {
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
