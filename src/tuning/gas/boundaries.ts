import { power } from '../../geometry/power.js';
import type { EndFlux, EndGas } from './duct-gas.js';
import { type Gas, type GasPair, gammaOf, internalEnergy, mixed } from './gas.js';

/** Gas at rest beyond an end: the open air, a cylinder, a volume where pipes join. Pa, K, fraction of burned gas. */
export interface Reservoir {
  readonly pressure: number;
  readonly temperature: number;
  readonly burned: number;
}

/** A closed end: nothing passes; the pressure is that of the wave thrown back, exact for a gas of constant heats. */
export function closedEnd(gas: EndGas, gases: GasPair): EndFlux {
  const { g, a } = waveOf(gas, gases);
  const m = gas.outwards / a;
  const k = ((g + 1) / 4) * m;
  const rise =
    m > 0 ? 1 + g * m * (k + Math.sqrt(1 + k * k)) : power(Math.max(0, 1 + ((g - 1) / 2) * m), (2 * g) / (g - 1));
  return { mass: 0, momentum: gas.pressure * rise, energy: 0, burned: 0 };
}

/**
 * An end with a restriction of `share` times the duct's area, its discharge coefficient included: a valve, a nozzle; 1 is an open end.
 * Flow to the throat is isentropic; behind the throat it fills the section it comes into without recovery of its speed. Gas leaves at
 * the pressure beyond, or at the speed of sound where that is higher, and comes in from rest without loss; the reflected wave follows
 * from the characteristic that arrives (R. S. Benson, The Thermodynamics and Gas Dynamics of Internal-Combustion Engines, vol. 1, ch. 4).
 */
export function restrictedEnd(gas: EndGas, beyond: Reservoir, share: number, gases: GasPair): EndFlux {
  if (share <= 0) return closedEnd(gas, gases);
  const wave = waveOf(gas, gases);
  // at the pressure at which nothing moves the gas stands still: above it gas comes in, below it leaves
  const still = pressureAt(wave, 0);
  return still >= beyond.pressure
    ? outflow(wave, beyond, Math.min(share, 1))
    : inflow(wave, beyond, Math.min(share, 1), gases);
}

/** What the wave that arrives at an end brings. */
interface Wave {
  readonly gas: EndGas;
  readonly mixture: Gas;
  readonly g: number;
  readonly a: number;
  readonly temperature: number;
}

function waveOf(gas: EndGas, gases: GasPair): Wave & { g: number; a: number } {
  const mixture = mixed(gases, gas.burned);
  const temperature = gas.pressure / (gas.density * mixture.r);
  const g = gammaOf(mixture, temperature);
  return { gas, mixture, g, a: Math.sqrt(g * mixture.r * temperature), temperature };
}

/** Outward speed of the duct's own gas when its pressure becomes `p`, by the arriving Riemann invariant. */
const speedAt = ({ gas, g, a }: Wave, p: number): number =>
  gas.outwards + ((2 * a) / (g - 1)) * (1 - power(p / gas.pressure, (g - 1) / (2 * g)));

/** The pressure at which the duct's own gas moves outwards at a speed. */
const pressureAt = ({ gas, g, a }: Wave, speed: number): number =>
  gas.pressure * power(Math.max(0, 1 + ((g - 1) / (2 * a)) * (gas.outwards - speed)), (2 * g) / (g - 1));

/** Gas of the duct at a pressure: density, speed of sound. */
function expanded({ gas, g, a }: Wave, p: number): { density: number; a: number } {
  const ratio = p / gas.pressure;
  return { density: gas.density * power(ratio, 1 / g), a: a * power(ratio, (g - 1) / (2 * g)) };
}

/** Mass flow, kg/(s m2), through a throat from rest at p0 Pa, rho0 kg/m3 to a back pressure: isentropic, choked where it must be. */
export function throatFlow(p0: number, rho0: number, g: number, back: number): number {
  const critical = power(2 / (g + 1), g / (g - 1));
  const ratio = Math.max(back / p0, critical);
  if (ratio >= 1) return 0;
  return Math.sqrt(((2 * g) / (g - 1)) * p0 * rho0 * (power(ratio, 2 / g) - power(ratio, (g + 1) / g)));
}

/** The duct's gas leaves. */
function outflow(wave: Wave, beyond: Reservoir, share: number): EndFlux {
  const { gas, g } = wave;
  if (gas.outwards >= wave.a) return fluxOf(wave, gas.pressure, gas.outwards);
  const surplus = (p: number): number => {
    const { density, a } = expanded(wave, p);
    const u = speedAt(wave, p);
    const still = 1 + (((g - 1) / 2) * u * u) / (a * a);
    const p0 = p * power(still, g / (g - 1));
    const rho0 = density * power(still, 1 / (g - 1));
    return density * u - share * throatFlow(p0, rho0, g, beyond.pressure);
  };
  // an open end has the pressure beyond, unless the gas would then be faster than sound
  const sonic = pressureAt(wave, sonicSpeed(wave));
  const lowest = Math.max(beyond.pressure, Math.min(sonic, pressureAt(wave, 0)));
  if (share >= 1) return fluxOf(wave, lowest, speedAt(wave, lowest));
  const p = root(surplus, lowest, pressureAt(wave, 0));
  return fluxOf(wave, p, speedAt(wave, p));
}

/** The speed at which the duct's own gas reaches that of sound. */
const sonicSpeed = ({ gas, g, a }: Wave): number => ((g - 1) / (g + 1)) * gas.outwards + (2 * a) / (g + 1);

function fluxOf(wave: Wave, p: number, u: number): EndFlux {
  const { density } = expanded(wave, p);
  const t = p / (density * wave.mixture.r);
  const mass = density * u;
  const energy = mass * (internalEnergy(wave.mixture, t) + p / density + (u * u) / 2);
  return { mass, momentum: mass * u + p, energy, burned: mass * wave.gas.burned };
}

/** Gas comes in from beyond. */
function inflow(wave: Wave, beyond: Reservoir, share: number, gases: GasPair): EndFlux {
  const gas = mixed(gases, beyond.burned);
  const t0 = beyond.temperature;
  const g = gammaOf(gas, t0);
  const cp = (g * gas.r) / (g - 1);
  const p0 = beyond.pressure;
  const rho0 = p0 / (gas.r * t0);
  const state = (p: number): { density: number; u: number } => {
    const u = -speedAt(wave, p);
    const t = t0 - (u * u) / (2 * cp);
    return { density: p / (gas.r * Math.max(t, 1)), u };
  };
  const surplus = (p: number): number => {
    const { density, u } = state(p);
    return density * u - share * throatFlow(p0, rho0, g, p);
  };
  const p = root(surplus, pressureAt(wave, 0), p0);
  const { density, u } = state(p);
  const mass = -density * u;
  const enthalpy = internalEnergy(gas, t0) + gas.r * t0;
  return { mass, momentum: density * u * u + p, energy: mass * enthalpy, burned: mass * beyond.burned };
}

/** Where a rising or falling function passes zero: the secant kept within halves (Illinois method), to 1e-12 of the range. */
function root(f: (x: number) => number, from: number, to: number): number {
  let [a, b, fa, fb] = [from, to, f(from), f(to)];
  if (fa * fb > 0) return Math.abs(fa) < Math.abs(fb) ? a : b;
  const close = 1e-12 * Math.max(Math.abs(from), Math.abs(to));
  for (let k = 0; k < 100 && Math.abs(b - a) > close && fb !== 0; k++) {
    const x = fa === fb ? (a + b) / 2 : b - (fb * (b - a)) / (fb - fa);
    const fx = f(x);
    if (fx * fb <= 0) {
      a = b;
      fa = fb;
    } else fa /= 2;
    b = x;
    fb = fx;
  }
  return b;
}
