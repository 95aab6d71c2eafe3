import { roughTerm } from '../../src/tuning/gas/duct.js';
import { frictionFactor, viscosity } from '../../src/tuning/gas/wall-effects.js';
import { OPEN_AIR, pipe, run, still } from '../support/gas-pipe.js';
import type { VerificationRow } from './row.js';

const TOTAL = { pressure: 2e5, temperature: 500, burned: 0 };

/** A nozzle that narrows from 1.3398 to a throat in its middle and widens again, from rest to a back pressure over the total one. */
export function nozzle(back: number, throat = 1) {
  const network = pipe(
    { length: 1, cells: 200, area: (x) => throat + (1.3398 - throat) * ((x - 0.5) / 0.5) ** 2 },
    () => still(0.9 * TOTAL.pressure, TOTAL.temperature),
    [TOTAL, { ...TOTAL, pressure: back * TOTAL.pressure }],
  );
  run(network, 0.1);
  const duct = network.ducts[0]!;
  return {
    duct,
    mach: (i: number): number => duct.velocity[i]! / duct.sound[i]!,
    over: (i: number): number => duct.pressure[i]! / TOTAL.pressure,
  };
}

const TABLES = 'isentropic flow tables, gamma 1.4 (NACA Report 1135)';

const inNozzle = (
  name: string,
  expected: number,
  limit: number,
  got: () => number,
  source = TABLES,
): VerificationRow => ({
  name: `Nozzle: ${name}`,
  source,
  unit: '',
  error: 'relative',
  limit,
  measure: () => ({ expected, got: got() }),
});

/** m = A p0 sqrt(gamma/(R T0)) (2/(gamma+1))^((gamma+1)/(2(gamma-1))). */
const choked: VerificationRow = {
  name: 'Choked nozzle: mass flow',
  source: 'closed form for a perfect gas',
  unit: 'kg/s',
  error: 'relative',
  limit: 0.005,
  measure: () => {
    const { duct } = nozzle(0.3);
    const expected = TOTAL.pressure * Math.sqrt(1.4 / (287.055 * TOTAL.temperature)) * (2 / 2.4) ** 3;
    return { expected, got: duct.fluxMass[0]! * duct.shape.faceArea[0]! };
  },
};

/** Pressure that a steady flow loses along a rough pipe, what speeds it up taken off, against f L/d rho u2 / 2. */
const friction: VerificationRow = {
  name: 'Rough pipe, 40 mm by 2 m: pressure lost over 1.2 m',
  source: 'Darcy-Weisbach with the friction factor of S. E. Haaland, J. Fluids Eng. 105 (1983)',
  unit: 'Pa',
  error: 'relative',
  limit: 0.01,
  measure: () => {
    const [d, length, roughness] = [0.04, 2, 45e-6];
    const network = pipe(
      { length, cells: 50, area: () => (Math.PI * d * d) / 4, roughness },
      () => still(101_500, 293.15),
      [{ ...OPEN_AIR, pressure: 102_200 }, OPEN_AIR],
    );
    run(network, 0.6, undefined, true);
    const { pressure, velocity, density } = network.ducts[0]!;
    const [i, j] = [10, 40];
    const got = pressure[i]! - pressure[j]! + density[i]! * velocity[i]! ** 2 - density[j]! * velocity[j]! ** 2;
    const [u, rho] = [velocity[25]!, density[25]!];
    const f = frictionFactor((rho * u * d) / viscosity(293.15), roughTerm(roughness, d));
    return { expected: (((f * (30 * length)) / 50 / d) * rho * u * u) / 2, got };
  },
};

export const steadyFlowRows: readonly VerificationRow[] = [
  inNozzle('Mach number at A/A* 1.3398, slower than sound', 0.5, 0.01, () => nozzle(0.843, 1.1882).mach(0)),
  inNozzle('p/p0 at A/A* 1.3398', 0.843, 0.005, () => nozzle(0.843, 1.1882).over(0)),
  inNozzle('Mach number at A/A* 1.1882', 0.6, 0.01, () => nozzle(0.843, 1.1882).mach(100)),
  inNozzle('p/p0 at A/A* 1.1882', 0.784, 0.005, () => nozzle(0.843, 1.1882).over(100)),
  inNozzle(
    'Mach number at A/A* 1.3398, faster than sound',
    1.7,
    0.01,
    () => nozzle(0.3).mach(199),
    'the same relations, computed',
  ),
  choked,
  friction,
];
