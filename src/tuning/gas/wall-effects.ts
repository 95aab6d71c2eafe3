import type { DuctGas } from './duct-gas.js';

/** Prandtl number of air and exhaust gas, 0.7 within a few hundredths from 300 to 1500 K (common practice). */
const PRANDTL = 0.7;

/** Pipes flow turbulent above this Reynolds number, laminar well below it. */
const LAMINAR = 2300;

/** Sutherland's viscosity of air, Pa s: 1.458e-6 T^1.5 / (T + 110.4). */
export const viscosity = (t: number): number => (1.458e-6 * t * Math.sqrt(t)) / (t + 110.4);

/**
 * Darcy's friction factor: 64/Re of a laminar flow, else Haaland's formula (S. E. Haaland, J. Fluids Eng. 105, 1983). `rough` is
 * (roughness / (3.7 diameter))^1.11.
 */
export function frictionFactor(reynolds: number, rough: number): number {
  if (reynolds < LAMINAR) return 64 / Math.max(reynolds, 1);
  return (-1.8 * Math.log10(rough + 6.9 / reynolds)) ** -2;
}

/** Haaland's term of the roughness, both in m. */
export const roughTerm = (roughness: number, diameter: number): number => (roughness / (3.7 * diameter)) ** 1.11;

/**
 * What the walls do to the gas in `dt` s: friction and bends slow it, which turns motion into heat and takes no energy; a wall of another
 * temperature takes or gives heat by Reynolds' analogy in Colburn's form, St Pr^(2/3) = f/8. Steady-flow laws, as one-dimensional
 * calculations commonly use them; pulsating flow is somewhat rougher on both.
 */
export function wallEffects(duct: DuctGas, dt: number): void {
  const { mass, momentum, energy, density, velocity, pressure, temperature, gamma, shape } = duct;
  for (let i = 0; i < mass.length; i++) {
    const d = shape.diameter[i]!;
    const speed = Math.abs(velocity[i]!);
    const t = temperature[i]!;
    const rho = density[i]!;
    const f = frictionFactor((rho * speed * d) / viscosity(t), roughTerm(shape.roughness, d));
    momentum[i]! /= 1 + dt * speed * (f / (2 * d) + shape.bendLoss[i]! / 2);
    const wall = shape.wall[i]!;
    if (Number.isNaN(wall)) continue;
    const g = gamma[i]!;
    const cp = ((g / (g - 1)) * pressure[i]!) / (rho * t);
    const rate = (((f / 8) * speed * 4) / d) * PRANDTL ** (-2 / 3);
    // exact for a constant rate, so that no step however long passes the wall's temperature
    energy[i]! += ((rho * cp) / g) * (wall - t) * (1 - Math.exp(-rate * g * dt));
  }
}
