import type { ExhaustJoint, ExhaustPipe, ExhaustSystem } from '../exhaust-system.js';
import { endCorrection } from '../formulas/end-correction.js';
import type { Reservoir } from '../gas/boundaries.js';
import { type DuctGas, fillDuct } from '../gas/duct-gas.js';
import { AIR, BURNED, type GasPair } from '../gas/gas.js';
import { type DuctEnd, filledVolume, type GasNetwork, gasNetwork } from '../gas/network.js';
import { checkRange } from './gas-engine.js';
import type { SimulateOptions } from './options.js';
import { pipeDuct } from './pipe-duct.js';

/** Air and what it burns to. */
export const GASES: GasPair = { fresh: AIR, burned: BURNED };

/** Gas in the pipes and cylinders before the first cycle. */
const AT_FIRST = { temperature: 900, burned: 1 };

/** Behind a turbine, where gas may flow back. */
const BEHIND_TURBINE = { temperature: 800, burned: 1 };

/** An exhaust as ducts with their ends; cylinders are volumes after those of the joints. */
export interface ExhaustNetwork {
  readonly network: GasNetwork;
  /** One for every pipe that begins at a cylinder, in the order of the pipes. */
  readonly valves: readonly ValveEnd[];
  /** One for every pipe that ends the system. */
  readonly outlets: readonly { readonly pipe: string; readonly duct: number; readonly beyond: Reservoir }[];
  /** What had to be altered to be calculated, one sentence each. */
  readonly notes: readonly string[];
}

/** Where a cylinder's exhaust valve opens into a pipe. */
export interface ValveEnd {
  readonly cylinder: number;
  /** The end of the duct, whose `share` follows the valve. */
  readonly end: Extract<DuctEnd, { kind: 'volume' }>;
  /** Index of the cylinder's volume. */
  readonly volume: number;
  /** Area of the pipe at the valve, m2. */
  readonly area: number;
}

/**
 * Makes an exhaust ready to be calculated, filled with hot gas at rest. `cylinderVolume` is what the cylinders' volumes start with, m3.
 * Throws RangeError for a system that cannot be.
 */
export function exhaustNetwork(
  system: ExhaustSystem,
  cylinderVolume: number,
  options: SimulateOptions,
): ExhaustNetwork {
  checkJoints(system);
  const { pipes, end } = system;
  const filling = { pressure: options.airPressure, ...AT_FIRST };
  const ducts = pipes.map((pipe) => filledDuct(system, pipe, options, filling));
  const mouths = 1 / Math.sqrt(1 + options.jointLoss);
  const notes: string[] = [];
  const volumes = system.joints.map((joint, j) =>
    filledVolume(GASES, jointVolume(system, joint, j, ducts, notes), filling),
  );
  const ends: DuctEnd[] = [];
  const valves: ValveEnd[] = [];
  const outlets: { pipe: string; duct: number; beyond: Reservoir }[] = [];
  for (const [duct, pipe] of pipes.entries()) {
    if ('cylinder' in pipe.from) {
      const at = { duct, side: 'start', kind: 'volume', volume: volumes.length, share: 0 } as const;
      const valveEnd: ValveEnd['end'] = { ...at };
      volumes.push(filledVolume(GASES, cylinderVolume, filling));
      ends.push(valveEnd);
      const area = ducts[duct]!.shape.faceArea[0]!;
      valves.push({ cylinder: pipe.from.cylinder, end: valveEnd, volume: at.volume, area });
    } else ends.push({ duct, side: 'start', kind: 'volume', volume: pipe.from.joint, share: mouths });
    if (pipe.to === 'end') {
      const beyond = beyondEnd(system, options);
      const share = end.kind === 'open' ? 1 : turbineShare(end.areas[outlets.length]!, ducts[duct]!, pipe);
      ends.push({ duct, side: 'end', kind: 'open', beyond, share });
      outlets.push({ pipe: pipe.name, duct, beyond });
    } else ends.push({ duct, side: 'end', kind: 'volume', volume: pipe.to.joint, share: mouths });
  }
  return { network: gasNetwork({ gases: GASES, ducts, ends, volumes }), valves, outlets, notes };
}

function filledDuct({ end }: ExhaustSystem, pipe: ExhaustPipe, options: SimulateOptions, at: Reservoir): DuctGas {
  const radius = Math.sqrt((pipe.stations.at(-1)?.area ?? 0) / Math.PI);
  const correction = pipe.to === 'end' && end.kind === 'open' ? endCorrection(radius, end.flanged) : 0;
  const shape = pipeDuct(pipe, options.cellLength, options.pipeWall, correction);
  const density = at.pressure / (GASES.burned.r * at.temperature);
  return fillDuct(shape, GASES, () => ({ density, velocity: 0, pressure: at.pressure, burned: at.burned }));
}

/** A joint holds at least a cell of every pipe that meets there: a smaller one would fill and empty within a step. */
function jointVolume(
  { pipes }: ExhaustSystem,
  { name, volume }: ExhaustJoint,
  j: number,
  ducts: readonly DuctGas[],
  notes: string[],
): number {
  checkRange(`${name}: volume`, volume, 0, 0.1, 'm3');
  const least = pipes.reduce((sum, { from, to }, i) => {
    const { faceArea, dx } = ducts[i]!.shape;
    const starts = 'joint' in from && from.joint === j ? faceArea[0]! * dx : 0;
    const ends = to !== 'end' && to.joint === j ? faceArea.at(-1)! * dx : 0;
    return sum + starts + ends;
  }, 0);
  if (volume >= least) return volume;
  notes.push(
    `${name}: calculated with ${(least * 1e6).toFixed(0)} cm3 for ${(volume * 1e6).toFixed(0)}, the least that cells of this length resolve.`,
  );
  return least;
}

function beyondEnd({ end }: ExhaustSystem, { airPressure, airTemperature }: SimulateOptions): Reservoir {
  if (end.kind === 'open') return { pressure: airPressure, temperature: airTemperature, burned: 0 };
  checkRange('pressure behind the turbine', end.backPressure, 4e4, 5e5, 'Pa');
  return { pressure: end.backPressure, ...BEHIND_TURBINE };
}

function turbineShare(area: number, { shape }: DuctGas, { name }: ExhaustPipe): number {
  const pipe = shape.faceArea.at(-1)!;
  checkRange(`${name}: effective area of the turbine over that of the pipe`, area / pipe, 0.02, 1, '');
  return area / pipe;
}

/** Every joint has a pipe in and a pipe out, every cylinder one pipe, and a turbine one area for every pipe that ends there. */
function checkJoints({ pipes, joints, end }: ExhaustSystem): void {
  const fault = (text: string): never => {
    throw new RangeError(text);
  };
  const cylinders = pipes.flatMap((p) => ('cylinder' in p.from ? [p.from.cylinder] : []));
  if (cylinders.length === 0) fault('no pipe begins at a cylinder');
  if (new Set(cylinders).size < cylinders.length)
    fault(`cylinders ${cylinders.join(', ')}: expected one pipe from each`);
  for (const { name, from, to } of pipes) {
    const meets = [...('joint' in from ? [from.joint] : []), ...(to === 'end' ? [] : [to.joint])];
    for (const j of meets)
      if (joints[j] === undefined) fault(`${name}: joint ${j} is not among the ${joints.length} joints`);
  }
  for (const [j, { name }] of joints.entries()) {
    if (!pipes.some((p) => p.to !== 'end' && p.to.joint === j)) fault(`${name}: no pipe leads into it`);
    if (!pipes.some((p) => 'joint' in p.from && p.from.joint === j)) fault(`${name}: no pipe leads out of it`);
  }
  const ends = pipes.filter((p) => p.to === 'end').length;
  if (ends === 0) fault('no pipe leads to the end');
  if (end.kind === 'turbine' && end.areas.length !== ends) {
    fault(`turbine: found ${end.areas.length} areas; expected ${ends}, one for every pipe that ends there`);
  }
}
