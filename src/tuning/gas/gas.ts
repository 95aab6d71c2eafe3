/**
 * A gas that obeys p = rho R T and whose heat depends on temperature alone: cv = c0 + c1 T + c2 T^2. SI units: J, kg, K.
 */
export interface Gas {
  /** J/(kg K). */
  readonly r: number;
  /** c0, c1, c2 of cv, J/(kg K). */
  readonly cv: readonly [number, number, number];
}

/** Heat capacity at constant volume, J/(kg K). */
const heatCapacity = ({ cv: [c0, c1, c2] }: Gas, t: number): number => c0 + t * (c1 + t * c2);

/** Internal energy above 0 K, J/kg. */
export const internalEnergy = ({ cv: [c0, c1, c2] }: Gas, t: number): number => t * (c0 + t * (c1 / 2 + (t * c2) / 3));

/** cp over cv. */
export const gammaOf = (gas: Gas, t: number): number => 1 + gas.r / heatCapacity(gas, t);

/** Speed of sound, m/s. */
export const soundSpeed = (gas: Gas, t: number): number => Math.sqrt(gammaOf(gas, t) * gas.r * t);

/** The mixture with the mass fraction `burned` of burned gas. */
export function mixed({ fresh, burned }: GasPair, fraction: number): Gas {
  const part = (a: number, b: number): number => a + fraction * (b - a);
  return {
    r: part(fresh.r, burned.r),
    cv: [part(fresh.cv[0], burned.cv[0]), part(fresh.cv[1], burned.cv[1]), part(fresh.cv[2], burned.cv[2])],
  };
}

/**
 * Temperature, K, of a gas with an internal energy, J/kg: Newton's method from a near guess. The energy rises and bends little with
 * temperature, so two or three steps are exact to rounding.
 */
export function temperatureOf(gas: Gas, energy: number, guess: number): number {
  let t = guess > 0 ? guess : energy / gas.cv[0];
  for (let k = 0; k < 20; k++) {
    const step = (internalEnergy(gas, t) - energy) / heatCapacity(gas, t);
    t -= step;
    if (Math.abs(step) <= 1e-13 * Math.abs(t)) break;
  }
  return t;
}

/** Two gases that mix: what fills the pipes at first, and what the cylinders burn. */
export interface GasPair {
  readonly fresh: Gas;
  readonly burned: Gas;
}

/**
 * Air from 300 to 1500 K: least squares through cp/cv of NBS Circular 564 (1955), within 0.006 of it and so within 0.2 % of
 * the speed of sound.
 */
export const AIR: Gas = { r: 287.055, cv: [638.846, 0.2360135, -2.672511e-5] };

/**
 * Burned stoichiometric octane, its make-up frozen (8 CO2 + 9 H2O + 47 N2), from 600 to 1200 K: least squares through cp/cv
 * computed from the species.
 */
export const BURNED: Gas = { r: 290.65, cv: [631.7087, 0.4475965, -9.080188e-5] };
