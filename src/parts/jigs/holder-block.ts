import type { Frame } from '../../geometry/frame.js';
import { WORLD } from '../../geometry/frame.js';
import { inletFrames, ringRadius } from '../../geometry/inlet-ring.js';
import type { Vec2 } from '../../geometry/vec2.js';
import type { Vec3 } from '../../geometry/vec3.js';
import { inletCount, inletTube } from '../../params/inlet-tube.js';
import type { CollectorPlan, Plan } from '../../params/plan.js';
import { type Key, keyFor, SOCKET_FLOOR, SOCKET_RELIEF, socketRoom } from './key.js';

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
}

/** How far the tubes' stubs stand out of the block, so that one sees and feels the round end that is to be met, mm. */
export const STUB = 3;

/** The block that takes the last dummy tubes of a collector. */
export function holderBlock(plan: Plan, collector: CollectorPlan): HolderBlock {
  const { od } = inletTube(plan, collector);
  const { fit, keyLength, strut } = plan.jig;
  const count = inletCount(collector);
  const tilt = count === 1 ? 0 : collector.mergeHalfAngle;
  const tubeKey = keyFor(od, fit);
  const radius = od / 2;
  const socketDepth =
    (keyLength + SOCKET_RELIEF) * Math.cos(tilt) + (tubeKey.radius + fit) * Math.sin(tilt) + SOCKET_FLOOR;
  // arms start below the lowest edge of the tilted tubes' ends
  const depth = Math.max(socketDepth, radius * Math.sin(tilt) + STUB + strut);
  return {
    inlets: inletFrames(WORLD, count, ringRadius(count, od, collector.inletGap), tilt),
    radius,
    depth,
    strut: strut / 2,
    armHeight: depth - strut / 2,
    tubeKey,
    strutKey: keyFor(strut, fit),
    keyLength,
  };
}

/** How far the block reaches from its axis in a direction across it, mm. */
export function reachOf(block: HolderBlock, [c, s]: Vec2): number {
  return Math.max(...block.inlets.map((i) => i.origin[0] * c + i.origin[1] * s)) + block.radius;
}

/** Length of the boss that takes a strut's end, from the middle of what carries it, mm. */
export const bossLength = (block: HolderBlock): number => block.strut + 2 + socketRoom(block.keyLength);

/** Middle of the end of an arm that reaches `out` mm from the axis in a direction across it, collector frame. */
export const armEnd = (block: HolderBlock, [c, s]: Vec2, out: number): Vec3 => [out * c, out * s, block.armHeight];
