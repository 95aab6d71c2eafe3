import { type Frame, pointFrom } from '../../geometry/frame.js';
import { type BarFrame, type Elastic, mostDeflection } from '../../geometry/frame-stiffness.js';
import type { HolderBlock } from './holder-block.js';
import type { StrutLine } from './strut-search.js';

/** How far a collector's holder gives way. */
export interface HolderStiffness {
  /** Name of the collector. */
  readonly collector: string;
  /** Most its inlets move under the load, mm. */
  readonly deflection: number;
  /** Diameter of struts in the plan, and the least whole millimetre with which it stays within the limit, mm; null when none up to 100 mm does. */
  readonly strut: number;
  readonly enough: number | null;
}

/** A hand on the collector: N. Our own figure. */
export const HOLDER_LOAD = 5;

/** Most the inlets may move under it, mm. Our own figure: a gap to be tacked. */
export const MOST_DEFLECTION = 0.5;

/** PLA, printed full: from memory 2.3 to 3.5 GPa as printed; the low end. Poisson's ratio from memory. */
const PLA: Elastic = { modulus: 2300, poisson: 0.35 };

/** Largest strut a plan may ask for, mm. */
const LARGEST_STRUT = 100;

/**
 * The holder as a frame of round bars rigidly joined: from the middle of its inlets down to its arms, along each arm and strut
 * to the foot, which is held. Keys count as solid, the dummy tubes and the flange not at all. The load acts at the middle of the
 * inlets, whichever way it pulls worst.
 */
export function holderStiffness(
  name: string,
  block: HolderBlock,
  at: Frame,
  struts: readonly StrutLine[],
): HolderStiffness | null {
  if (struts.length === 0) return null;
  const deflection = (strut: number): number =>
    mostDeflection(holderFrame(block, at, struts, strut / 2), 0, HOLDER_LOAD, PLA);
  const given = 2 * block.strut;
  let enough: number | null = Math.ceil(given);
  while (enough !== null && deflection(enough) > MOST_DEFLECTION) enough = enough < LARGEST_STRUT ? enough + 1 : null;
  return { collector: name, deflection: deflection(given), strut: given, enough };
}

/** Node 0 is the middle of the inlets, node 1 where the arms leave the axis. */
function holderFrame(block: HolderBlock, at: Frame, struts: readonly StrutLine[], radius: number): BarFrame {
  const nodes = [at.origin, pointFrom(at, [0, 0, block.armHeight])];
  const held: number[] = [];
  // the block is far stiffer than a strut: a bar of the tubes' size stands for it
  const bars = [{ from: 0, to: 1, radius: Math.max(radius, block.radius) }];
  for (const { points } of struts) {
    let before = 1;
    for (const [i, p] of points.entries()) {
      nodes.push(p);
      // an arm is a millimetre wider all round than its strut
      bars.push({ from: before, to: nodes.length - 1, radius: i === 0 ? radius + 1 : radius });
      before = nodes.length - 1;
    }
    held.push(before);
  }
  return { nodes, held, bars };
}
