import { power } from '../../geometry/power.js';
import type { Reservoir } from '../gas/boundaries.js';
import type { DuctGas } from '../gas/duct-gas.js';
import { type CrankTrace, crankTrace, fillTrace } from './crank-trace.js';
import type { OutletResult } from './results.js';

/** The end of a pipe as it runs: what passed since the cycle began. */
export interface RunningOutlet {
  readonly pipe: string;
  readonly duct: DuctGas;
  readonly beyond: Reservoir;
  /** kg, J. */
  mass: number;
  pulse: number;
  /** Sums for the steady flow to compare with: kg of outflow, kg K of its total temperature, Pa s of its total pressure, s. */
  outflow: number;
  warmth: number;
  push: number;
  time: number;
  readonly trace: CrankTrace;
}

const NOTHING = { mass: 0, pulse: 0, outflow: 0, warmth: 0, push: 0, time: 0 };

export const startOutlet = (pipe: string, duct: DuctGas, beyond: Reservoir): RunningOutlet => ({
  pipe,
  duct,
  beyond,
  ...NOTHING,
  trace: crankTrace(),
});

export const clearOutlet = (outlet: RunningOutlet): void => {
  Object.assign(outlet, NOTHING);
};

/** Counts what passed in a step of `dt` s, from one crank angle to another. */
export function runOutlet(outlet: RunningOutlet, from: number, to: number, dt: number): void {
  const { duct, beyond } = outlet;
  const last = duct.pressure.length - 1;
  const mass = duct.fluxMass[last + 1]! * duct.shape.faceArea[last + 1]! * dt;
  const { total, totalTemperature, cp, g } = totalState(duct, last);
  outlet.mass += mass;
  outlet.time += dt;
  outlet.push += total * dt;
  if (mass > 0) {
    outlet.outflow += mass;
    outlet.warmth += mass * totalTemperature;
    outlet.pulse += mass * ideal(cp, totalTemperature, g, total, beyond.pressure);
  }
  fillTrace(outlet.trace, from, to, duct.pressure[last]!);
}

/** Work of an ideal turbine for every kg, J: from rest at a total state to a pressure. */
const ideal = (cp: number, t: number, g: number, total: number, back: number): number =>
  total > back ? cp * t * (1 - power(back / total, (g - 1) / g)) : 0;

/** Pressure and temperature of a cell's gas brought to rest without loss, with its heat and ratio of heats. */
function totalState(duct: DuctGas, i: number): { total: number; totalTemperature: number; cp: number; g: number } {
  const g = duct.gamma[i]!;
  const mach = duct.velocity[i]! / duct.sound[i]!;
  const warmer = 1 + ((g - 1) / 2) * mach * mach;
  const r = duct.pressure[i]! / (duct.density[i]! * duct.temperature[i]!);
  const total = duct.pressure[i]! * power(warmer, g / (g - 1));
  return { total, totalTemperature: duct.temperature[i]! * warmer, cp: (g * r) / (g - 1), g };
}

/** What passed in the cycle; the energies only before a turbine. */
export function outletResult(outlet: RunningOutlet, turbine: boolean): OutletResult {
  const { pipe, mass, pulse, duct, beyond, outflow, warmth, push, time } = outlet;
  const { cp, g } = totalState(duct, duct.pressure.length - 1);
  const steady = outflow > 0 ? outflow * ideal(cp, warmth / outflow, g, push / time, beyond.pressure) : 0;
  return {
    pipe,
    mass,
    pulseEnergy: turbine ? pulse : null,
    steadyEnergy: turbine ? steady : null,
    pressure: outlet.trace.values.slice(),
  };
}
