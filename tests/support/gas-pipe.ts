import type { Reservoir } from '../../src/tuning/gas/boundaries.js';
import { type DuctDesign, ductShape, type GasPoint } from '../../src/tuning/gas/duct.js';
import { fillDuct } from '../../src/tuning/gas/duct-gas.js';
import type { Gas } from '../../src/tuning/gas/gas.js';
import { type DuctEnd, type GasNetwork, gasNetwork, stepNetwork } from '../../src/tuning/gas/network.js';

/** A gas of constant heat capacity, as handbooks' examples use it. `gamma` is cp over cv. */
export const perfectGas = (r: number, gamma: number): Gas => ({ r, cv: [r / (gamma - 1), 0, 0] });

/** Dry air of constant heats. */
export const COLD_AIR = perfectGas(287.055, 1.4);

/** Air of the open at 20 degrees Celsius. */
export const OPEN_AIR: Reservoir = { pressure: 101_325, temperature: 293.15, burned: 0 };

/** What closes or opens the two ends of one pipe. */
export type PipeEnd = 'closed' | Reservoir;

/** One pipe with its two ends. */
export function pipe(
  design: DuctDesign,
  at: (x: number) => Omit<GasPoint, 'burned'>,
  [start, end]: readonly [PipeEnd, PipeEnd],
  gas: Gas = COLD_AIR,
): GasNetwork {
  const gases = { fresh: gas, burned: gas };
  const duct = fillDuct(ductShape(design), gases, (x) => ({ ...at(x), burned: 0 }));
  const beyond = (side: 'start' | 'end', what: PipeEnd): DuctEnd =>
    what === 'closed' ? { duct: 0, side, kind: 'closed' } : { duct: 0, side, kind: 'open', beyond: what, share: 1 };
  return gasNetwork({ gases, ducts: [duct], ends: [beyond('start', start), beyond('end', end)], volumes: [] });
}

/** Lets a network run for a time, s, without walls' friction and heat unless told; `each` sees every step. */
export function run(network: GasNetwork, time: number, each: (now: number) => void = () => {}, walls = false): void {
  let now = 0;
  while (now < time * (1 - 1e-12)) {
    now += stepNetwork(network, time - now, walls);
    each(now);
  }
}

/** Gas at a pressure, Pa, and temperature, K, at rest. */
export const still = (pressure: number, temperature: number, gas: Gas = COLD_AIR): Omit<GasPoint, 'burned'> => ({
  density: pressure / (gas.r * temperature),
  velocity: 0,
  pressure,
});
