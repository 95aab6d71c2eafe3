import type { BendLoss } from './bend-loss.js';

/** A stretch of the way of the gas between joints, from a valve or a joint on. mm, mm2, rad. */
export interface GasWay {
  /** 'cylinder 2', 'secondary from front', 'collector'. */
  readonly name: string;
  readonly from: { readonly cylinder: number } | { readonly joint: number };
  readonly to: { readonly joint: number } | 'end';
  readonly length: number;
  /** From 0 to `length`; straight lines of diameter between; two at one place are a step. */
  readonly stations: readonly GasStation[];
  readonly bends: readonly WayBend[];
  readonly roughness: number;
  /** Part of the heat loss of a bare wall. */
  readonly heatShare: number;
  /** What the way is made of, the port in the head and the flange left aside. */
  readonly metal: readonly WayMetal[];
}

/** What a way is put together from. */
export type WayPart = Pick<GasWay, 'length' | 'stations' | 'bends' | 'metal'>;

/** One part after another. */
export function followedBy(a: WayPart, b: WayPart): WayPart {
  if (b.length === 0) return a;
  const on = a.length;
  return {
    length: a.length + b.length,
    stations: [...a.stations, ...b.stations.map((s) => ({ ...s, at: s.at + on }))],
    bends: [...a.bends, ...b.bends.map((x) => ({ ...x, from: x.from + on, to: x.to + on }))],
    metal: [...a.metal, ...b.metal.map((m) => ({ ...m, from: m.from + on, to: m.to + on }))],
  };
}

export interface GasStation {
  readonly at: number;
  readonly area: number;
  /** 'valve', 'head face', 'tube', 'step', 'outlet': what begins or ends there. */
  readonly what: string;
}

export interface WayBend {
  readonly from: number;
  readonly to: number;
  readonly bore: number;
  readonly angle: number;
  readonly insideRadius: number;
  readonly loss: BendLoss;
}

export interface WayMetal {
  readonly from: number;
  readonly to: number;
  readonly wall: number;
}

/** Where ways meet. mm3; metal round it in mm2 of its outside and mm of wall. */
export interface GasJoint {
  readonly name: string;
  readonly volume: number;
  readonly surface: number;
  readonly wall: number;
}

export type GasEnd =
  | { readonly kind: 'open' }
  | { readonly kind: 'turbine'; readonly area: number; readonly backPressure: number };

/** An exhaust as ways of the gas: what the audit measures and the calculation runs. */
export interface GasSystem {
  readonly name: string;
  readonly ways: readonly GasWay[];
  readonly joints: readonly GasJoint[];
  readonly end: GasEnd;
  /** kg/m3. */
  readonly density: number;
  /** What was taken because the plan does not say, one sentence each. */
  readonly notes: readonly string[];
}

/** Diameter, mm, of the circle of an area, mm2. */
export const diameterOf = (area: number): number => Math.sqrt((4 * area) / Math.PI);

/** Area, mm2, of the circle of a diameter, mm. */
export const circleArea = (diameter: number): number => (Math.PI / 4) * diameter * diameter;

/** Diameter, mm, at a place of a way; just behind a step where there is one. */
export function diameterAt(stations: readonly GasStation[], at: number): number {
  let i = stations.length - 2;
  while (i > 0 && stations[i]!.at > at) i--;
  const [a, b] = [stations[i]!, stations[i + 1]!];
  const [d0, d1] = [diameterOf(a.area), diameterOf(b.area)];
  return b.at === a.at ? d1 : d0 + ((d1 - d0) * (at - a.at)) / (b.at - a.at);
}

/** Cones between neighbouring stations: length and both diameters, mm. */
export function conesOf(stations: readonly GasStation[], from = 0, to = Number.POSITIVE_INFINITY): Cone[] {
  const cones: Cone[] = [];
  for (let i = 1; i < stations.length; i++) {
    const [a, b] = [stations[i - 1]!, stations[i]!];
    const [lo, hi] = [Math.max(a.at, from), Math.min(b.at, to)];
    if (hi <= lo) continue;
    const [d0, d1] = [diameterOf(a.area), diameterOf(b.area)];
    const d = (at: number): number => d0 + ((d1 - d0) * (at - a.at)) / (b.at - a.at);
    cones.push({ length: hi - lo, from: d(lo), to: d(hi) });
  }
  return cones;
}

export interface Cone {
  readonly length: number;
  readonly from: number;
  readonly to: number;
}

/** Volume of a cone frustum, mm3: pi L (d1^2 + d1 d2 + d2^2) / 12. */
export const coneVolume = ({ length, from, to }: Cone): number =>
  (Math.PI * length * (from * from + from * to + to * to)) / 12;

/** Skin of a cone frustum whose wall stands `wall` mm outside, mm2: pi slant (r1 + r2). */
export const coneSkin = ({ length, from, to }: Cone, wall: number): number =>
  Math.PI * Math.hypot(length, (to - from) / 2) * ((from + to) / 2 + 2 * wall);
