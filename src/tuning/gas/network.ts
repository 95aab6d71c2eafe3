import { closedEnd, type Reservoir, restrictedEnd } from './boundaries.js';
import {
  contentOf,
  type DuctGas,
  type DuctSide,
  type EndFlux,
  endGas,
  readPrimitives,
  setEndFlux,
  stableStep,
} from './duct-gas.js';
import { type GasPair, internalEnergy, mixed, temperatureOf } from './gas.js';
import { hllc } from './hllc.js';
import { predict, update } from './scheme.js';
import { wallEffects } from './wall-effects.js';

/** Courant number of a step: the scheme is stable below 1. */
const COURANT = 0.8;

/**
 * What the walls do is added every so many steps, for the time since: in one step they take some ten-thousandths of the speed, and
 * their laws cost more than the waves.
 */
const WALL_STEPS = 4;

/** A well-stirred volume of gas at rest: a collector where pipes join, a plenum. Its values change as the network runs. SI units. */
export interface GasVolume {
  volume: number;
  mass: number;
  energy: number;
  burned: number;
  /** Of the mass and energy as they stand. */
  temperature: number;
}

/**
 * What is beyond one end of one duct. `share` is the part of the duct's area that is open, with its discharge coefficient; that of a
 * valve is set anew before every step.
 */
export type DuctEnd = { readonly duct: number; readonly side: DuctSide } & (
  | { readonly kind: 'closed' }
  | { readonly kind: 'open'; readonly beyond: Reservoir; readonly share: number }
  | { readonly kind: 'volume'; readonly volume: number; share: number }
);

/** Ducts and what joins them. */
export interface GasNetwork {
  readonly gases: GasPair;
  readonly ducts: readonly DuctGas[];
  readonly ends: readonly DuctEnd[];
  readonly volumes: readonly GasVolume[];
  /** What the walls have still to do: for how long, s, and how many steps that is. */
  readonly walls: { time: number; steps: number };
}

/** A network before its first step. */
export const gasNetwork = (parts: Omit<GasNetwork, 'walls'>): GasNetwork => ({
  ...parts,
  walls: { time: 0, steps: 0 },
});

/** A volume filled with gas at a pressure, Pa, and temperature, K. */
export function filledVolume(gases: GasPair, volume: number, { pressure, temperature, burned }: Reservoir): GasVolume {
  const gas = mixed(gases, burned);
  const mass = (pressure * volume) / (gas.r * temperature);
  return { volume, mass, energy: mass * internalEnergy(gas, temperature), burned: mass * burned, temperature };
}

/** The gas of a volume as the ends that open into it see it. */
export function reservoirOf(v: GasVolume, gases: GasPair): Reservoir {
  const burned = v.burned / v.mass;
  const gas = mixed(gases, burned);
  return { pressure: (v.mass * gas.r * v.temperature) / v.volume, temperature: v.temperature, burned };
}

/**
 * Moves the gas of a network on by one step, no longer than `longest` s, and returns the step. Where pipes join, the pressure of the
 * joint's volume holds at every mouth (the constant-pressure model) and gas that enters the volume loses its speed to it.
 */
export function stepNetwork(network: GasNetwork, longest: number, walls = true): number {
  const { gases, ducts, ends, volumes } = network;
  const dt = Math.min(longest, ...ducts.map((d) => stableStep(d, COURANT)));
  const wallTime = walls ? timeForWalls(network, dt) : 0;
  for (const duct of ducts) {
    predict(duct, dt);
    hllc(duct);
  }
  const reservoirs = volumes.map((v) => reservoirOf(v, gases));
  for (const end of ends) {
    const duct = ducts[end.duct]!;
    const flux = fluxAt(network, end, reservoirs);
    setEndFlux(duct, end.side, flux);
    if (end.kind === 'volume') receive(volumes[end.volume]!, flux, dt * endArea(duct, end.side));
  }
  for (const duct of ducts) {
    update(duct, dt);
    readPrimitives(duct);
    if (wallTime > 0) wallEffects(duct, wallTime);
  }
  for (const v of volumes) {
    v.temperature = temperatureOf(mixed(gases, v.burned / v.mass), v.energy / v.mass, v.temperature);
  }
  return dt;
}

/** The time the walls act for after this step: none in most. */
function timeForWalls({ walls }: GasNetwork, dt: number): number {
  walls.time += dt;
  walls.steps++;
  if (walls.steps < WALL_STEPS) return 0;
  const time = walls.time;
  walls.time = 0;
  walls.steps = 0;
  return time;
}

function fluxAt({ gases, ducts }: GasNetwork, end: DuctEnd, reservoirs: readonly Reservoir[]): EndFlux {
  const gas = endGas(ducts[end.duct]!, end.side);
  if (end.kind === 'closed') return closedEnd(gas, gases);
  return restrictedEnd(gas, end.kind === 'open' ? end.beyond : reservoirs[end.volume]!, end.share, gases);
}

const endArea = ({ shape }: DuctGas, side: DuctSide): number =>
  shape.faceArea[side === 'start' ? 0 : shape.faceArea.length - 1]!;

function receive(v: GasVolume, flux: EndFlux, times: number): void {
  v.mass += flux.mass * times;
  v.energy += flux.energy * times;
  v.burned += flux.burned * times;
}

/** Mass, kg, energy, J, and mass of burned gas, kg, in all ducts and volumes. */
export function networkContent({ ducts, volumes }: GasNetwork): { mass: number; energy: number; burned: number } {
  const all = [...ducts.map(contentOf), ...volumes];
  const sum = (of: 'mass' | 'energy' | 'burned'): number => all.reduce((s, c) => s + c[of], 0);
  return { mass: sum('mass'), energy: sum('energy'), burned: sum('burned') };
}
