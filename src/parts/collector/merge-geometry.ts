import { WORLD } from '../../geometry/frame.js';
import { mergeEnd, PARALLEL } from '../../geometry/merge/end.js';
import { inletFrames, ringRadius } from '../../geometry/merge/inlet-ring.js';
import { coveredArea } from '../../geometry/merge/section.js';
import { inletCount } from '../../params/collector/inlet-tube.js';
import { outletLength } from '../../params/collector/outlet-length.js';
import { SLIP_LAND } from '../../params/collector/slip-gap.js';
import type { CollectorPlan } from '../../params/plan.js';
import { type BranchCut, type BranchHost, branchCut } from './branch-cut.js';
import { type InletCut, inletCut } from './inlet-cut.js';
import { closedAt, equalRadius, type MergeRing, spikeVolume } from './merge-ring.js';

/** The tube that arrives at the inlets, mm. */
export interface InletTube {
  readonly od: number;
  readonly wall: number;
}

/** A collector in numbers, in its own frame: inlet plane z = 0, x to inlet 1, z with the gas; mm, mm2, rad. */
export interface CollectorGeometry {
  /** Number of inlets. */
  readonly inlets: number;
  /** Of the circle the inlets' centres stand on, mm. */
  readonly ringRadius: number;
  /** Between an inlet's axis and the collector's, rad. */
  readonly mergeHalfAngle: number;
  /** Radius of the tubes' bore and outside, mm. */
  readonly bore: number;
  /** Outside radius of an inlet tube, mm. */
  readonly outside: number;
  /** Distance from the inlet plane to the merge's end plane, where the cone begins, mm. */
  readonly mergeLength: number;
  /** Distance of the tubes' axes from the collector's axis there, mm. */
  readonly mergeRadius: number;
  /** How each inlet tube is trimmed. */
  readonly cuts: readonly InletCut[];
  /** Length of the cone, mm. */
  readonly coneLength: number;
  /** Length of the tail, mm. */
  readonly tail: number;
  /** Inlet plane to the end of the tail, mm. */
  readonly totalLength: number;
  /** Radius of the outlet's bore, mm. */
  readonly outletBore: number;
  /** Outside radius of the outlet, mm. */
  readonly outletOutside: number;
  /** Wall of the cone, mm. */
  readonly coneWall: number;
  /** Bore areas, mm2. */
  readonly area: {
    /** All inlets' bores together. */
    readonly inlets: number;
    /** Section of the joined bores at the merge's end, square to the collector's axis. */
    readonly mergeEnd: number;
    /** Of the outlet. */
    readonly outlet: number;
    /** Outlet over one inlet's bore. */
    readonly outletToInlet: number;
    /** Null without a throat. */
    readonly throat: number | null;
  };
  /** Where the cone that begins at the merge ends: at the outlet, or at a throat. Distance from the inlet plane and radii, mm. */
  readonly coneEnd: {
    /** Along the axis from the inlet plane. */
    readonly z: number;
    /** Radius of the bore. */
    readonly bore: number;
    /** Outside radius. */
    readonly outside: number;
  };
  /** Half-angle of the round cone of the same areas and length, rad; positive where it widens. */
  readonly coneHalfAngle: number;
  /** Null for a plain cone. */
  readonly throat: CollectorThroat | null;
  /** Null when the centre is open. */
  readonly spike: CollectorSpike | null;
  /** Null when the tubes are welded on. */
  readonly slip: CollectorSlip | null;
  /** A pipe that leaves its side; null for none. */
  readonly branch: BranchCut | null;
}

/** Throat and diffuser of a venturi: radii and distances from the inlet plane, mm. */
export interface CollectorThroat {
  /** Radius of the bore. */
  readonly bore: number;
  /** Outside radius. */
  readonly outside: number;
  /** Where the throat begins. */
  readonly from: number;
  /** Where it ends and the diffuser begins. */
  readonly to: number;
  /** Where the diffuser ends. */
  readonly diffuserEnd: number;
  /** rad; 0 where there is no diffuser. */
  readonly diffuserHalfAngle: number;
}

/** The filler between the tubes: from the inlet plane to its point on the axis, mm, and its volume, mm3. */
export interface CollectorSpike {
  /** From the inlet plane to the tip, mm. */
  readonly length: number;
  /** Volume, mm3. */
  readonly volume: number;
}

/** Sleeves over the tubes' ends, mm: radii, how far back they reach and how far they lie on the collector's own tubes. */
export interface CollectorSlip {
  /** How far a sleeve reaches back over its tube, mm. */
  readonly overlap: number;
  /** Gap per side, mm. */
  readonly fit: number;
  /** Radius of the sleeve's bore. */
  readonly bore: number;
  /** Outside radius of the sleeve. */
  readonly outside: number;
  /** How far a sleeve lies on the collector's own tube. */
  readonly land: number;
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
  const { coneLength } = plan.outlet;
  const throat = throatOf(plan, length + coneLength, outletBore);
  const coneEnd = {
    z: length + coneLength,
    bore: throat?.bore ?? outletBore,
    outside: throat?.outside ?? outletOutside,
  };
  const totalLength = length + outletLength(plan.outlet);
  const mergeEndArea = coveredArea({ count: n, offset: radius, tilt: alpha, radius: bore });
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
    coneLength,
    tail: plan.outlet.tail,
    totalLength,
    outletBore,
    outletOutside,
    coneWall: plan.outlet.wall,
    area: {
      inlets: n * inletArea,
      mergeEnd: mergeEndArea,
      outlet: outletArea,
      outletToInlet: outletArea / inletArea,
      throat: throat === null ? null : Math.PI * throat.bore ** 2,
    },
    coneEnd,
    coneHalfAngle: Math.atan2(coneEnd.bore - equalRadius(mergeEndArea), coneLength),
    throat,
    spike: spikeOf(plan, { inlets: n, ringRadius: rho, mergeHalfAngle: alpha }, outside),
    slip: slipOf(plan, tube),
    branch: plan.branch && branchCut(plan.branch, hostOf(plan, coneEnd.z - coneLength, coneEnd.z, totalLength)),
  };
}

function throatOf({ outlet }: CollectorPlan, from: number, outletBore: number): CollectorThroat | null {
  const { throat, wall } = outlet;
  if (throat === null) return null;
  const bore = throat.bore / 2;
  const to = from + throat.length;
  return {
    bore,
    outside: bore + wall,
    from,
    to,
    diffuserEnd: to + throat.diffuserLength,
    diffuserHalfAngle: throat.diffuserLength > 0 ? Math.atan2(outletBore - bore, throat.diffuserLength) : 0,
  };
}

function spikeOf({ centre }: CollectorPlan, ring: MergeRing, outside: number): CollectorSpike | null {
  if (centre === 'open') return null;
  if (ring.inlets < 3 || ring.mergeHalfAngle < PARALLEL) {
    throw new RangeError('a spike needs three inlets or more that run together: two leave no hole between them');
  }
  return { length: closedAt(ring, outside), volume: spikeVolume(ring, outside) };
}

function slipOf({ slip }: CollectorPlan, tube: InletTube): CollectorSlip | null {
  if (slip === null) return null;
  const bore = tube.od / 2 + slip.fit;
  return { ...slip, bore, outside: bore + tube.wall, land: SLIP_LAND };
}

function hostOf({ branch, outlet }: CollectorPlan, from: number, coneEnd: number, total: number): BranchHost {
  return branch!.on === 'cone'
    ? { kind: 'cone', from, to: coneEnd }
    : { kind: 'tail', radius: outlet.od / 2, from: total - outlet.tail, to: total };
}
