import type { Frame } from '../../geometry/frame.js';
import { WORLD } from '../../geometry/frame.js';
import { inletFrames, ringRadius } from '../../geometry/merge/inlet-ring.js';
import type { Vec2 } from '../../geometry/vec2.js';
import type { Vec3 } from '../../geometry/vec3.js';
import { inletCount, inletTube } from '../../params/collector/inlet-tube.js';
import type { CollectorPlan, Plan } from '../../params/plan.js';
import { collectorLength } from '../../routing/problem.js';
import { jointGap } from './joint-keys.js';
import { type Key, keyFor, LEAST_KEY, SOCKET_FLOOR, SOCKET_RELIEF, socketRoom } from './key.js';
import { cordRadius } from './tube-bore.js';

/** The holder's block in numbers, in the collector's frame: inlets at z = 0, flat base at z = `depth`; mm. */
export interface HolderBlock {
  readonly inlets: readonly Frame[];
  /** Outside radius of the tubes. */
  readonly radius: number;
  readonly depth: number;
  /** Radius of the struts and of the arms that carry them. */
  readonly strut: number;
  /** Height of the struts' axes at the arms. */
  readonly armHeight: number;
  readonly tubeKey: Key;
  readonly strutKey: Key;
  readonly keyLength: number;
  /** Radius of the way through for a cord; null without. */
  readonly cord: number | null;
  /** What goes on from the base to the outlet of a collector that feeds another; null for one that does not. */
  readonly stem: HolderStem | null;
}

/** A round bar along the collector's axis, of the outlet's outside, from the holder's base to the outlet's end; mm. */
export interface HolderStem {
  readonly radius: number;
  /** From the inlet plane to where the secondary begins. */
  readonly end: number;
  readonly key: Key;
  /** 0 is a plain joint in the base. */
  readonly keyLength: number;
}

/** How far the tubes' stubs stand out of the block, so that one sees and feels the round end that is to be met, mm. */
export const STUB = 3;

/** A stem shorter than this, mm, is none. */
const LEAST_STEM = 5;

/** The block that takes the last dummy tubes of a collector, for struts of a diameter, mm; null when the collector feeds another and ends before its holder would. */
export function holderBlock(plan: Plan, collector: CollectorPlan, strut: number): HolderBlock | null {
  const { od } = inletTube(plan, collector);
  const { fit, keyLength } = plan.jig;
  const count = inletCount(collector);
  const tilt = count === 1 ? 0 : collector.mergeHalfAngle;
  const gap = jointGap(plan.jig);
  const tubeKey = keyFor(od, gap);
  const radius = od / 2;
  const socketDepth =
    (keyLength + SOCKET_RELIEF) * Math.cos(tilt) + (tubeKey.radius + gap) * Math.sin(tilt) + SOCKET_FLOOR;
  // arms start below the lowest edge of the tilted tubes' ends
  const least = Math.max(socketDepth, radius * Math.sin(tilt) + STUB + strut);
  const stem = feedsAnother(plan, collector) ? stemOf(plan, collector, socketDepth) : null;
  if (stem && stem.end < least + LEAST_STEM) return null;
  const depth = stem ? Math.max(least, socketDepth + stemSocket(stem.keyLength)) : least;
  return {
    inlets: inletFrames(WORLD, count, ringRadius(count, od, collector.inletGap), tilt),
    radius,
    depth,
    strut: strut / 2,
    armHeight: depth - strut / 2,
    tubeKey,
    strutKey: keyFor(strut, fit),
    keyLength,
    cord: cordRadius(plan.jig.cord, fit),
    stem,
  };
}

/** True for a collector whose outlet goes on as a secondary. */
export const feedsAnother = (plan: Plan, collector: CollectorPlan): boolean =>
  plan.collectors.some((c) => c.from.includes(collector.name));

/** Stem of a collector whose tubes' sockets reach `socketDepth` mm into its holder, floor included. */
function stemOf(plan: Plan, collector: CollectorPlan, socketDepth: number): HolderStem {
  const { keyLength } = plan.jig;
  const { od } = collector.outlet;
  const end = collectorLength(collector, plan);
  const room = Math.min(keyLength, end - LEAST_STEM - socketDepth - SOCKET_RELIEF);
  return { radius: od / 2, end, key: keyFor(od, jointGap(plan.jig)), keyLength: room < LEAST_KEY ? 0 : room };
}

/** What a stem's socket takes up of the base, mm: the floor between it and the tubes' sockets is theirs. */
const stemSocket = (keyLength: number): number => (keyLength > 0 ? keyLength + SOCKET_RELIEF : 0);

/** How far the block reaches from its axis in a direction across it, mm. */
export function reachOf(block: HolderBlock, [c, s]: Vec2): number {
  return Math.max(...block.inlets.map((i) => i.origin[0] * c + i.origin[1] * s)) + block.radius;
}

/** Radii of the seats tried for a strut of that radius, mm: between ports and bolts a thick strut may have to stand on a slimmer foot. */
export const seatsFor = (strut: number): number[] => [strut, ...[12, 8].filter((r) => r < strut)];

/** Room between a thick strut's end and its foot's pad, mm: what stands on the flange. */
const OVER_PAD = 6;

/**
 * How far from its root a foot's boss, `seat` mm thick in radius, ends and the strut begins, mm: the boss has left the pad of thickness
 * `pad` before its socket starts, and a strut thicker than the boss hangs over the pad. `rise`: sine of the strut's angle to the face.
 */
export function neckLength({ strut, keyLength }: HolderBlock, seat: number, rise: number, pad: number): number {
  const lean = Math.sqrt(Math.max(0, 1 - rise * rise));
  const lift = (seat * lean - pad / 2) / rise;
  const boss = Math.max(seat + 2, lift) + socketRoom(keyLength);
  return strut <= seat ? boss : Math.max(boss, (strut * lean + pad / 2 + OVER_PAD) / rise);
}

/** Length of the boss that takes a strut's end, from the middle of what carries it, mm: out of that when it ends, however thick. */
export const bossLength = (block: HolderBlock): number =>
  Math.max(block.strut + 2 + socketRoom(block.keyLength), 2 * block.strut + 3);

/** Middle of the end of an arm that reaches `out` mm from the axis in a direction across it, collector frame. */
export const armEnd = (block: HolderBlock, [c, s]: Vec2, out: number): Vec3 => [out * c, out * s, block.armHeight];
