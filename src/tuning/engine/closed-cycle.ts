import { power } from '../../geometry/power.js';
import type { GasEngine } from './gas-engine.js';
import { cylinderVolume } from './piston.js';

/** Gas caught when the intake valve closes: Pa, K, fraction left over from the cycle before. */
export interface CaughtGas {
  readonly pressure: number;
  readonly temperature: number;
  readonly burned: number;
}

/** The closed part of a cycle. Angles in degrees after firing top dead centre. */
export interface ClosedCycle {
  /** K, when the exhaust valve opens. */
  readonly temperatureAtOpening: number;
  /** Pa, at an angle from intake closing over 720 (top dead centre) and on to exhaust opening. */
  readonly pressureAt: (angle: number) => number;
}

/**
 * Both valves shut: compressed by a polytrope, burned at once at top dead centre, expanded by a polytrope. It stands for nothing but a
 * sensible pressure and temperature at exhaust opening. `burnedR` and `caughtR` are gas constants, J/(kg K), after and before.
 */
export function closedCycle(engine: GasEngine, caught: CaughtGas, caughtR: number, burnedR: number): ClosedCycle {
  const { compression, expansion, rise } = engine.closedCycle;
  const volumeCaught = cylinderVolume(engine, engine.intake.closes);
  const clearance = cylinderVolume(engine, 0);
  const squeezed = volumeCaught / clearance;
  const before = caught.temperature * power(squeezed, compression - 1);
  const burnt = before + rise * (1 - caught.burned);
  const mass = (caught.pressure * volumeCaught) / (caughtR * caught.temperature);
  const peak = (mass * burnedR * burnt) / clearance;
  const pressureAt = (angle: number): number => {
    const volume = cylinderVolume(engine, angle);
    return angle > engine.intake.closes - 1e-9 && angle < 720
      ? caught.pressure * power(volumeCaught / volume, compression)
      : peak * power(clearance / volume, expansion);
  };
  const opening = cylinderVolume(engine, engine.exhaust.opens);
  return { temperatureAtOpening: burnt * power(clearance / opening, expansion - 1), pressureAt };
}
