import { power } from '../../geometry/power.js';
import type { DuctGas } from './duct-gas.js';

/** Prandtl number of air and exhaust gas, 0.7 within a few hundredths from 300 to 1500 K (common practice). */
const PRANDTL = 0.7;

/** Pipes flow turbulent above this Reynolds number, laminar well below it. */
const LAMINAR = 2300;

/** -1.8 of Haaland's formula, for natural logarithms. */
const HAALAND = -1.8 / Math.LN10;

/** Sutherland's viscosity of air, Pa s: 1.458e-6 T^1.5 / (T + 110.4). */
export const viscosity = (t: number): number => (1.458e-6 * t * Math.sqrt(t)) / (t + 110.4);

/**
 * Darcy's friction factor: 64/Re of a laminar flow, else Haaland's formula (S. E. Haaland, J. Fluids Eng. 105, 1983). `rough` is
 * Haaland's term of the roughness.
 */
export function frictionFactor(reynolds: number, rough: number): number {
  if (reynolds < LAMINAR) return 64 / Math.max(reynolds, 1);
  const root = HAALAND * Math.log(rough + 6.9 / reynolds);
  return 1 / (root * root);
}

/** Pr^(-2/3), of Colburn's form. */
const COLBURN = power(PRANDTL, -2 / 3);

/**
 * What the walls do to the gas in `dt` s: friction and bends slow it, which turns motion into heat and takes no energy; a wall of another
 * temperature takes or gives heat by Reynolds' analogy in Colburn's form, St Pr^(2/3) = f/8. Steady-flow laws, as one-dimensional
 * calculations commonly use them; pulsating flow is somewhat rougher on both. Leaves what follows from the conserved values true.
 */
export function wallEffects(duct: DuctGas, dt: number): void {
  const { momentum, energy, density, velocity, pressure, burned, temperature, gamma, sound, shape } = duct;
  const { diameter, rough, bendLoss, wall, heatShare } = shape;
  const { fresh, burned: other } = duct.gases;
  const [a0, a1, a2] = fresh.cv;
  const [d0, d1, d2] = [other.cv[0] - a0, other.cv[1] - a1, other.cv[2] - a2];
  for (let i = 0; i < density.length; i++) {
    const d = diameter[i]!;
    const u = velocity[i]!;
    const speed = Math.abs(u);
    const t = temperature[i]!;
    const rho = density[i]!;
    const y = burned[i]!;
    const r = fresh.r + y * (other.r - fresh.r);
    const f = frictionFactor((rho * speed * d) / viscosity(t), rough[i]!);
    const slower = u / (1 + dt * speed * (f / (2 * d) + bendLoss[i]! / 2));
    // the change is so small that the heat at its start will do; what is kept, `energy`, has no part in that
    const cv = r / (gamma[i]! - 1);
    let warmer = (u * u - slower * slower) / (2 * cv);
    const w = wall[i]!;
    if (w > 0) {
      const x = ((COLBURN * heatShare * f * speed) / (2 * d)) * gamma[i]! * dt;
      // backward in time, so that no step however long passes the wall's temperature
      const heat = ((w - t) * x) / (1 + x);
      energy[i]! += rho * cv * heat;
      warmer += heat;
    }
    momentum[i] = rho * slower;
    velocity[i] = slower;
    const now = t + warmer;
    const g = 1 + r / (a0 + y * d0 + now * (a1 + y * d1 + now * (a2 + y * d2)));
    temperature[i] = now;
    pressure[i] = rho * r * now;
    gamma[i] = g;
    sound[i] = Math.sqrt(g * r * now);
  }
}
