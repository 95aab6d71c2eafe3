import { integrate } from '../integrate.js';

/**
 * A ring of alike tubes in a plane square to the collector's axis: every section is an ellipse of half-axes `radius` / cos(tilt)
 * outwards and `radius` round the ring, its centre `offset` mm from the axis. All closed forms here come from squeezing the
 * plane outwards by cos(tilt), which makes the ellipse a circle and keeps areas in one ratio.
 */
export interface RingSection {
  readonly count: number;
  /** mm. */
  readonly offset: number;
  /** Angle between a tube and the collector's axis, rad. */
  readonly tilt: number;
  /** mm. */
  readonly radius: number;
}

/** Half the wedge of one tube, squeezed: distance of its circle's centre from the axis, and the line half-way to the next tube. */
interface HalfWedge {
  /** mm. */
  readonly d: number;
  /** Angle of the line off the wedge's middle, rad. */
  readonly slope: number;
  /** Distance of the circle's centre from the line, mm. */
  readonly h: number;
}

function halfWedge({ count, offset, tilt }: RingSection): HalfWedge {
  const d = offset * Math.cos(tilt);
  const slope = Math.atan2(Math.sin(Math.PI / count), Math.cos(Math.PI / count) * Math.cos(tilt));
  return { d, slope, h: d * Math.sin(slope) };
}

/** Area the tubes cover together, mm2. Closed form: circular sectors, segments and a triangle. */
export function coveredArea(ring: RingSection): number {
  const { count, tilt, radius: r } = ring;
  if (count === 1) return (Math.PI * r * r) / Math.cos(tilt);
  const { d, slope, h } = halfWedge(ring);
  return (2 * count * halfCovered(d, slope, h, r)) / Math.cos(tilt);
}

function halfCovered(d: number, slope: number, h: number, r: number): number {
  if (h >= r) return (Math.PI * r * r) / 2;
  if (d >= r) return (Math.PI * r * r) / 2 - (r * r * Math.acos(h / r) - h * Math.sqrt(r * r - h * h));
  // the axis lies in the circle: sector from the middle of the wedge to where the line leaves the circle, and a triangle
  const t = d * Math.cos(slope) + Math.sqrt(r * r - h * h);
  const x = -d + t * Math.cos(slope);
  const y = t * Math.sin(slope);
  return (r * r * Math.atan2(y, x) + d * y) / 2;
}

/**
 * Area of the hole that three or more tubes leave between them, mm2: inside the polygon of their centres, outside every tube.
 * 0 where they have closed it, and for fewer than three.
 */
export function holeArea(ring: RingSection): number {
  const { count, offset, tilt, radius: r } = ring;
  if (count < 3) return 0;
  const { d, slope, h } = halfWedge(ring);
  // squeezed: the triangle axis - centre - middle of the next two centres, the circle's centre at the origin
  const reach = offset * Math.cos(Math.PI / count);
  const mx = -d + reach * Math.cos(Math.PI / count) * Math.cos(tilt);
  const my = reach * Math.sin(Math.PI / count);
  const from = Math.atan2(my, mx);
  const foot = Math.PI / 2 + slope;
  const triangle = (d * my) / 2;
  const half = triangle - inTriangle(from, foot, h, r);
  return (2 * count * Math.max(0, half)) / Math.cos(tilt);
}

/** Area of a circle about the origin between the directions `from` and pi and on this side of a line `h` away in the direction `foot`. */
function inTriangle(from: number, foot: number, h: number, r: number): number {
  const spread = h < r ? Math.acos(h / r) : 0;
  const a = Math.min(Math.PI, Math.max(from, foot - spread));
  const b = Math.max(from, Math.min(Math.PI, foot + spread));
  if (b <= a) return (r * r * (Math.PI - from)) / 2;
  const sectors = (r * r * (a - from + Math.PI - b)) / 2;
  return sectors + (h * h * (Math.tan(b - foot) - Math.tan(a - foot))) / 2;
}

/** Area, mm2, and perimeter, mm, of the convex hull of the tubes' sections. By Cauchy's formulas from the support of one ellipse. */
export function hullOfRing({ count, offset, tilt, radius: r }: RingSection): { area: number; perimeter: number } {
  const long = r / Math.cos(tilt);
  const across = (a: number): number => Math.hypot(long * Math.cos(a), r * Math.sin(a));
  const support = (a: number): number => offset * Math.cos(a) + across(a);
  const slope = (a: number): number =>
    -offset * Math.sin(a) + ((r * r - long * long) * Math.sin(a) * Math.cos(a)) / across(a);
  const to = Math.PI / count;
  const area = integrate((a) => support(a) ** 2 - slope(a) ** 2, 0, to);
  return { area: count * area, perimeter: 2 * count * integrate(support, 0, to) };
}

/** How far the convex hull of the tubes' sections reaches from the axis in the direction `angle` rad off the first tube's own, mm. */
export function hullReach({ count, offset, tilt, radius: r }: RingSection, angle: number): number {
  const long = r / Math.cos(tilt);
  const turn = (2 * Math.PI) / count;
  const steps = 1440;
  const normals = Array.from({ length: steps - 1 }, (_, i) => angle - Math.PI / 2 + (Math.PI * (i + 1)) / steps);
  // square to the hull's flat sides the support has its kinks
  const flats = Array.from({ length: count }, (_, i) => turn * (i + 0.5));
  let least = Number.POSITIVE_INFINITY;
  for (const a of [...normals, ...flats]) {
    const share = Math.cos(a - angle);
    if (share < 1e-6) continue;
    const own = a - turn * Math.round(a / turn);
    const support = offset * Math.cos(own) + Math.hypot(long * Math.cos(own), r * Math.sin(own));
    least = Math.min(least, support / share);
  }
  return least;
}

/** Volume, mm3, between two parallel planes `length` mm apart of the convex hull of a convex section (area, perimeter) and a circle: sections between are Minkowski sums (Steiner's formula). */
export const transitionVolume = (area: number, perimeter: number, radius: number, length: number): number =>
  length * (area / 3 + (radius * perimeter) / 6 + (Math.PI * radius * radius) / 3);

/** Area, mm2, of that hull at the part `t` (0 to 1) of the way to the circle. */
export const transitionArea = (area: number, perimeter: number, radius: number, t: number): number =>
  (1 - t) ** 2 * area + t * (1 - t) * radius * perimeter + t * t * Math.PI * radius * radius;
