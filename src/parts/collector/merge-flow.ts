import { integrate } from '../../geometry/integrate.js';
import { coveredArea, hullOfRing, transitionArea, transitionVolume } from '../../geometry/merge/section.js';
import type { CollectorGeometry } from './merge-geometry.js';
import { closedAt, ringAt, touchingAt } from './merge-ring.js';

/** Part of the way of the gas, from the inlet plane on; mm. */
export type FlowPart = 'merge' | 'cone' | 'throat' | 'diffuser' | 'tail';

/** A stretch of the way of the gas along the collector's axis. */
export interface FlowStretch {
  readonly part: FlowPart;
  readonly from: number;
  readonly to: number;
  /** Volume of the gas in it, a branch left aside, mm3. */
  readonly volume: number;
}

/** Section of the gas at a place along the collector's axis. */
export interface AreaAt {
  readonly part: FlowPart;
  /** From the inlet plane, mm. */
  readonly z: number;
  /** Square to the collector's axis, a branch left aside, mm2. */
  readonly area: number;
}

/** Stretches of the way of the gas that are there, in order, with their volumes: the merge by Simpson's rule on closed-form sections (to 1e-6 of it), the others in closed form. */
export function flowStretches(g: CollectorGeometry): FlowStretch[] {
  const ends: [FlowPart, number, number][] = [
    ['merge', 0, g.mergeLength],
    ['cone', g.mergeLength, g.coneEnd.z],
    ...(g.throat === null
      ? []
      : ([
          ['throat', g.throat.from, g.throat.to],
          ['diffuser', g.throat.to, g.throat.diffuserEnd],
        ] as [FlowPart, number, number][])),
    ['tail', g.throat?.diffuserEnd ?? g.coneEnd.z, g.totalLength],
  ];
  return ends
    .filter(([, from, to]) => to > from)
    .map(([part, from, to]) => ({ part, from, to, volume: volumeOfPart(g, part, to - from) }));
}

function volumeOfPart(g: CollectorGeometry, part: FlowPart, length: number): number {
  const round = (a: number, b: number): number => (Math.PI * length * (a * a + a * b + b * b)) / 3;
  switch (part) {
    case 'merge':
      return mergeVolume(g);
    case 'cone': {
      const { area, perimeter } = hullOfRing(ringAt(g, g.mergeLength, g.bore));
      return transitionVolume(area, perimeter, g.coneEnd.bore, length);
    }
    case 'throat':
      return round(g.throat!.bore, g.throat!.bore);
    case 'diffuser':
      return round(g.throat!.bore, g.outletBore);
    case 'tail':
      return round(g.outletBore, g.outletBore);
  }
}

/** Split where neighbouring bores first touch and where they have closed the hole: the sections' slope is not smooth there. */
function mergeVolume(g: CollectorGeometry): number {
  const area = (z: number): number => coveredArea(ringAt(g, z, g.bore));
  const kinks = [touchingAt(g, g.bore), closedAt(g, g.bore)].filter((z) => z > 0 && z < g.mergeLength);
  const ends = [0, ...kinks.sort((a, b) => a - b), g.mergeLength];
  return ends.slice(1).reduce((sum, to, i) => sum + integrate(area, ends[i]!, to, 2000), 0);
}

/** Section of the gas way at `z` mm behind the inlet plane in a part of it, mm2. Closed forms. */
function areaIn(g: CollectorGeometry, { part, from, to }: FlowStretch, z: number): number {
  const t = (z - from) / (to - from);
  const round = (r: number): number => Math.PI * r * r;
  switch (part) {
    case 'merge':
      return coveredArea(ringAt(g, z, g.bore));
    case 'cone': {
      const { area, perimeter } = hullOfRing(ringAt(g, g.mergeLength, g.bore));
      return transitionArea(area, perimeter, g.coneEnd.bore, t);
    }
    case 'throat':
      return round(g.throat!.bore);
    case 'diffuser':
      return round(g.throat!.bore + (g.outletBore - g.throat!.bore) * t);
    case 'tail':
      return round(g.outletBore);
  }
}

/**
 * Growth and contraction along the collector's axis: the gas section at about every `step` mm and at both ends of every part,
 * square to the axis. Where two parts meet there are two rows: at the merge's end the valleys between the lobes end in a step.
 */
export function areaProfile(g: CollectorGeometry, step = 5): AreaAt[] {
  return flowStretches(g).flatMap((s) => {
    const n = Math.max(1, Math.ceil((s.to - s.from) / step - 1e-9));
    return Array.from({ length: n + 1 }, (_, i) => {
      const z = i === n ? s.to : s.from + ((s.to - s.from) * i) / n;
      return { part: s.part, z, area: areaIn(g, s, z) };
    });
  });
}
