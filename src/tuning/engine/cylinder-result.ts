import { AIR, BURNED, temperatureOf } from '../gas/gas.js';
import { CYCLE, extremeOver, meanOver } from './crank-trace.js';
import { type GasEngine, sweptVolume } from './gas-engine.js';
import type { CylinderResult } from './results.js';
import type { RunningCylinder } from './running-cylinder.js';

/** How long after exhaust closing the lowest pressure is still looked for, deg. */
const LATE = 60;

/** What a cylinder's last cycle amounts to. */
export function cylinderResult(engine: GasEngine, cylinder: RunningCylinder): CylinderResult {
  const { sums, valve } = cylinder;
  const valvePressure = cylinder.valveTrace.values.slice();
  const { exhaust, intake, intakePressure, intakeTemperature } = engine;
  const overlap = meanOver(valvePressure, intake.opens, exhaust.closes);
  const blowDown = extremeOver(valvePressure, exhaust.opens, Math.min(exhaust.closes, 330), 'highest');
  const lowest = extremeOver(valvePressure, blowDown.at, exhaust.closes + LATE, 'lowest');
  const mean = meanOver(valvePressure, 0, CYCLE - 1)!;
  const full = (intakePressure * sweptVolume(engine)) / (AIR.r * intakeTemperature);
  return {
    cylinder: valve.cylinder,
    valvePressure,
    cylinderPressure: cylinder.cylinderTrace.values.slice(),
    overlapDifference: overlap === null ? null : overlap - intakePressure,
    pumpingWork: sums.pumping,
    indicatedWork: sums.work,
    rarefactionAt: lowest.at,
    rarefactionDepth: lowest.value - mean,
    massExhausted: sums.exhausted,
    freshCharge: sums.freshCharge,
    chargingEfficiency: sums.freshCharge / full,
    residualFraction: sums.residual,
    exhaustTemperature: meanTemperature(sums.exhaustEnthalpy / sums.exhausted),
  };
}

/** Temperature, K, of burned gas of an enthalpy, J/kg. */
function meanTemperature(enthalpy: number): number {
  // h = u + R T: a gas whose heat at constant volume is that at constant pressure
  const asVolume = { r: BURNED.r, cv: [BURNED.cv[0] + BURNED.r, BURNED.cv[1], BURNED.cv[2]] as const };
  return temperatureOf(asVolume, enthalpy, 1000);
}
