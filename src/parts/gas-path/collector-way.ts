import { integrate } from '../../geometry/integrate.js';
import { coveredArea } from '../../geometry/merge/section.js';
import { inletTube } from '../../params/collector/inlet-tube.js';
import type { CollectorPlan, Plan } from '../../params/plan.js';
import { areaProfile } from '../collector/merge-flow.js';
import { type CollectorGeometry, collectorGeometry } from '../collector/merge-geometry.js';
import { equalRadius, ringAt, touchingAt } from '../collector/merge-ring.js';
import { circleArea, type GasJoint, type GasStation, type WayPart } from './gas-way.js';

/** A collector as the gas sees it. */
export interface CollectorWay {
  /** What is left of each inlet's own tube before it opens into its neighbours. */
  readonly run: WayPart;
  /** The volume where they are one; null for a single inlet. */
  readonly joint: GasJoint | null;
  /** From the merge's end through cone, throat and diffuser to the end of the outlet. */
  readonly way: WayPart;
}

/**
 * A collector parted in three: tubes that are still apart, the volume from where their bores touch to the merge's end, the pipe that
 * leaves it. Sections by the merge's closed forms.
 */
export function collectorWay(plan: Plan, c: CollectorPlan): CollectorWay {
  const g = collectorGeometry(c, inletTube(plan, c));
  const way = outletWay(g);
  const none: WayPart = { length: 0, stations: [], bends: [], metal: [] };
  if (g.inlets === 1) return { run: none, joint: null, way };
  const touching = Math.max(0, touchingAt(g, g.bore));
  // parallel tubes never touch: they end in the merge as a whole
  const apart = touching < g.mergeLength ? touching : 0;
  const wall = g.outside - g.bore;
  const run = apart / Math.cos(g.mergeHalfAngle);
  const area = circleArea(2 * g.bore);
  const stations: GasStation[] = [
    { at: 0, area, what: 'inlet' },
    { at: run, area, what: 'bores meet' },
  ];
  return {
    run: run > 0 ? { length: run, stations, bends: [], metal: [{ from: 0, to: run, wall }] } : none,
    joint: { name: c.name, ...openMerge(g, apart), wall },
    way,
  };
}

/** Gas volume of the merge from where bores touch on, mm3, and its outside as that of a round pipe of the same sections, mm2. */
function openMerge(g: CollectorGeometry, apart: number): { volume: number; surface: number } {
  const section = (z: number): number => coveredArea(ringAt(g, z, g.bore));
  const skin = (z: number): number => 2 * Math.PI * (equalRadius(section(z)) + g.outside - g.bore);
  return {
    volume: integrate(section, apart, g.mergeLength, 400),
    surface: integrate(skin, apart, g.mergeLength, 400),
  };
}

const PART_NAMES = { merge: 'merge', cone: 'cone', throat: 'throat', diffuser: 'diffuser', tail: 'outlet' } as const;

function outletWay(g: CollectorGeometry): WayPart {
  const length = g.totalLength - g.mergeLength;
  const stations = areaProfile(g)
    .filter((s) => s.part !== 'merge')
    .map((s) => ({ at: s.z - g.mergeLength, area: s.area, what: PART_NAMES[s.part] }));
  return { length, stations, bends: [], metal: [{ from: 0, to: length, wall: g.coneWall }] };
}
