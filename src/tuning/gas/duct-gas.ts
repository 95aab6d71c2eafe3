import type { DuctShape, GasPoint } from './duct.js';
import { type GasPair, internalEnergy, mixed } from './gas.js';

/** The gas of a duct: what is conserved in every cell, what follows from it, and room for one step. SI units, one value a cell or face. */
export interface DuctGas {
  readonly shape: DuctShape;
  readonly gases: GasPair;
  /** For every m3 of a cell: mass, momentum, energy (internal and of motion), mass of burned gas. */
  readonly mass: Float64Array;
  readonly momentum: Float64Array;
  readonly energy: Float64Array;
  readonly burnedMass: Float64Array;
  /** Density, velocity, pressure, fraction of burned gas, temperature, ratio of heats, speed of sound: of the conserved values as they stand. */
  readonly density: Float64Array;
  readonly velocity: Float64Array;
  readonly pressure: Float64Array;
  readonly burned: Float64Array;
  readonly temperature: Float64Array;
  readonly gamma: Float64Array;
  readonly sound: Float64Array;
  /** The same at the start and the end of every cell half a step later, four values each: density, velocity, pressure, burned. */
  readonly atStart: Float64Array;
  readonly atEnd: Float64Array;
  /** Pressure in the middle of every cell half a step later. */
  readonly halfPressure: Float64Array;
  /** Through every face, for every m2 and s: mass, momentum and pressure, energy, mass of burned gas. */
  readonly fluxMass: Float64Array;
  readonly fluxMomentum: Float64Array;
  readonly fluxEnergy: Float64Array;
  readonly fluxBurned: Float64Array;
}

/** Fills a duct with gas. `at` gives it at a distance from the start, m. */
export function fillDuct(shape: DuctShape, gases: GasPair, at: (x: number) => GasPoint): DuctGas {
  const n = shape.volume.length;
  const cells = (): Float64Array => new Float64Array(n);
  const faces = (): Float64Array => new Float64Array(n + 1);
  const duct: DuctGas = {
    shape,
    gases,
    mass: cells(),
    momentum: cells(),
    energy: cells(),
    burnedMass: cells(),
    density: cells(),
    velocity: cells(),
    pressure: cells(),
    burned: cells(),
    temperature: cells(),
    gamma: cells(),
    sound: cells(),
    atStart: new Float64Array(4 * n),
    atEnd: new Float64Array(4 * n),
    halfPressure: cells(),
    fluxMass: faces(),
    fluxMomentum: faces(),
    fluxEnergy: faces(),
    fluxBurned: faces(),
  };
  for (let i = 0; i < n; i++) setCell(duct, i, at((i + 0.5) * shape.dx));
  readPrimitives(duct);
  return duct;
}

/** Puts gas into a cell. */
export function setCell(duct: DuctGas, i: number, { density, velocity, pressure, burned }: GasPoint): void {
  const gas = mixed(duct.gases, burned);
  const t = pressure / (density * gas.r);
  duct.mass[i] = density;
  duct.momentum[i] = density * velocity;
  duct.energy[i] = density * (internalEnergy(gas, t) + velocity ** 2 / 2);
  duct.burnedMass[i] = density * burned;
  duct.temperature[i] = t;
}

/** What follows from the conserved values of every cell. Throws RangeError where the gas has run empty. */
export function readPrimitives(duct: DuctGas): void {
  const { mass, momentum, energy, burnedMass, density, velocity, pressure, burned, temperature, gamma, sound } = duct;
  const { fresh } = duct.gases;
  const other = duct.gases.burned;
  const dr = other.r - fresh.r;
  const [a0, a1, a2] = fresh.cv;
  const [d0, d1, d2] = [other.cv[0] - a0, other.cv[1] - a1, other.cv[2] - a2];
  for (let i = 0; i < mass.length; i++) {
    const rho = mass[i]!;
    const u = momentum[i]! / rho;
    const y = burnedMass[i]! / rho;
    const e = energy[i]! / rho - (u * u) / 2;
    const c0 = a0 + y * d0;
    const c1 = a1 + y * d1;
    const c2 = a2 + y * d2;
    // the temperature of the step before is a guess so near that two Newton steps are exact to rounding
    let t = temperature[i]!;
    let cv = c0;
    for (let k = 0; k < 2; k++) {
      cv = c0 + t * (c1 + t * c2);
      t -= (t * (c0 + t * (c1 / 2 + (t * c2) / 3)) - e) / cv;
    }
    if (!(rho > 0 && t > 0)) throw new RangeError(`the gas ran empty in cell ${i}`);
    const r = fresh.r + y * dr;
    cv = c0 + t * (c1 + t * c2);
    density[i] = rho;
    velocity[i] = u;
    burned[i] = y;
    temperature[i] = t;
    pressure[i] = rho * r * t;
    gamma[i] = 1 + r / cv;
    sound[i] = Math.sqrt(gamma[i]! * r * t);
  }
}

/** Largest step, s, for a Courant number. */
export function stableStep({ shape, velocity, sound }: DuctGas, courant: number): number {
  let fastest = 0;
  for (let i = 0; i < velocity.length; i++) fastest = Math.max(fastest, Math.abs(velocity[i]!) + sound[i]!);
  return (courant * shape.dx) / fastest;
}

/** Mass, kg, energy, J, and mass of burned gas, kg, in the whole duct. */
export function contentOf(duct: DuctGas): { mass: number; energy: number; burned: number } {
  const { volume } = duct.shape;
  const sum = (of: Float64Array): number => of.reduce((s, v, i) => s + v * volume[i]!, 0);
  return { mass: sum(duct.mass), energy: sum(duct.energy), burned: sum(duct.burnedMass) };
}

/** The gas at an end of the duct half a step later, its velocity counted outwards. */
export interface EndGas {
  readonly density: number;
  readonly outwards: number;
  readonly pressure: number;
  readonly burned: number;
}

export type DuctSide = 'start' | 'end';

/** The gas that meets a boundary. */
export function endGas(duct: DuctGas, side: DuctSide): EndGas {
  const values = side === 'start' ? duct.atStart : duct.atEnd;
  const at = side === 'start' ? 0 : values.length - 4;
  return {
    density: values[at]!,
    outwards: side === 'start' ? -values[at + 1]! : values[at + 1]!,
    pressure: values[at + 2]!,
    burned: values[at + 3]!,
  };
}

/** What leaves a duct through an end, for every m2 and s; `momentum` includes the pressure. */
export interface EndFlux {
  readonly mass: number;
  readonly momentum: number;
  readonly energy: number;
  readonly burned: number;
}

/** Lets a flux through an end in the step to come. */
export function setEndFlux(duct: DuctGas, side: DuctSide, flux: EndFlux): void {
  const i = side === 'start' ? 0 : duct.fluxMass.length - 1;
  const sign = side === 'start' ? -1 : 1;
  duct.fluxMass[i] = sign * flux.mass;
  duct.fluxMomentum[i] = flux.momentum;
  duct.fluxEnergy[i] = sign * flux.energy;
  duct.fluxBurned[i] = sign * flux.burned;
}
