import { power } from '../../geometry/power.js';
import { throatFlow } from '../gas/boundaries.js';
import { type GasPair, gammaOf, internalEnergy, mixed, temperatureOf } from '../gas/gas.js';
import { type GasVolume, reservoirOf } from '../gas/network.js';
import type { GasEngine } from './gas-engine.js';
import { cylinderVolume } from './piston.js';
import { effectiveArea } from './valve.js';

/** Gas that flowed back into the intake port: it comes in first when the flow turns. kg, J of enthalpy, kg. */
export interface IntakePort {
  mass: number;
  enthalpy: number;
  burned: number;
}

/** What happened in a cylinder in one short step: kg drawn from beyond the intake port, J given to the piston. */
export interface CylinderStep {
  readonly drawn: number;
  readonly work: number;
}

/**
 * Moves the gas of a cylinder with an open valve on by `dt` s, from one crank angle to the next: flow through the intake valves, heat to
 * the walls, work on the piston. What passes the exhaust valve is the network's matter.
 */
export function stepCylinder(
  gas: GasVolume,
  port: IntakePort,
  engine: GasEngine,
  gases: GasPair,
  from: number,
  to: number,
  dt: number,
): CylinderStep {
  const drawn = intakeFlow(gas, port, engine, gases, (from + to) / 2, dt);
  gas.energy -= wallHeat(gas, engine, gases, to - from, dt);
  const work = pistonWork(gas, gases, cylinderVolume(engine, to));
  return { drawn, work };
}

/** Lets the piston move to a new volume, m3, and returns the work the gas does, J: an isentropic change to second order. */
export function pistonWork(gas: GasVolume, gases: GasPair, volume: number): number {
  settle(gas, gases);
  const { pressure, temperature, burned } = reservoirOf(gas, gases);
  const change = volume - gas.volume;
  const middle = pressure * (1 - (gammaOf(mixed(gases, burned), temperature) * change) / (2 * gas.volume));
  const work = middle * change;
  gas.energy -= work;
  gas.volume = volume;
  settle(gas, gases);
  return work;
}

/** The temperature that goes with mass and energy. */
function settle(gas: GasVolume, gases: GasPair): void {
  gas.temperature = temperatureOf(mixed(gases, gas.burned / gas.mass), gas.energy / gas.mass, gas.temperature);
}

/** Quasi-steady flow through the intake valves, either way; kg drawn anew from the reservoir before the port. */
function intakeFlow(
  gas: GasVolume,
  port: IntakePort,
  engine: GasEngine,
  gases: GasPair,
  angle: number,
  dt: number,
): number {
  const area = effectiveArea(engine.intake, angle);
  if (area <= 0) return 0;
  const inside = reservoirOf(gas, gases);
  const { intakePressure, intakeTemperature } = engine;
  if (inside.pressure > intakePressure) {
    const mixture = mixed(gases, inside.burned);
    const density = gas.mass / gas.volume;
    const flow = throatFlow(inside.pressure, density, gammaOf(mixture, inside.temperature), intakePressure);
    const mass = flow * area * dt;
    const enthalpy = mass * (internalEnergy(mixture, inside.temperature) + mixture.r * inside.temperature);
    shift(gas, -mass, -enthalpy, -mass * inside.burned);
    port.mass += mass;
    port.enthalpy += enthalpy;
    port.burned += mass * inside.burned;
    return 0;
  }
  const { fresh } = gases;
  const density = intakePressure / (fresh.r * intakeTemperature);
  const mass = throatFlow(intakePressure, density, gammaOf(fresh, intakeTemperature), inside.pressure) * area * dt;
  const back = Math.min(mass, port.mass);
  const part = port.mass > 0 ? back / port.mass : 0;
  const [enthalpy, burned] = [part * port.enthalpy, part * port.burned];
  port.mass -= back;
  port.enthalpy -= enthalpy;
  port.burned -= burned;
  const own = (mass - back) * (internalEnergy(fresh, intakeTemperature) + fresh.r * intakeTemperature);
  shift(gas, mass, own + enthalpy, burned);
  return mass - back;
}

function shift(gas: GasVolume, mass: number, energy: number, burned: number): void {
  gas.mass += mass;
  gas.energy += energy;
  gas.burned += burned;
}

/**
 * Heat to the walls, J, by the gas-exchange form of Woschni's formula (G. Woschni, SAE 670931): h = 3.26 B^-0.2 p^0.8 T^-0.55 w^0.8 with
 * p in kPa and w 6.18 times the mean speed of the piston.
 */
function wallHeat(
  { volume, temperature, mass }: GasVolume,
  engine: GasEngine,
  gases: GasPair,
  degrees: number,
  dt: number,
): number {
  const { bore, stroke, wallTemperature } = engine;
  const pressure = (mass * gases.burned.r * temperature) / volume;
  const meanSpeed = (stroke * degrees) / 180 / dt;
  const h = 3.26 * power(bore, -0.2) * power((pressure / 1000) * 6.18 * meanSpeed, 0.8) * power(temperature, -0.55);
  const area = (Math.PI / 2) * bore ** 2 + (4 * volume) / bore;
  return h * area * (temperature - wallTemperature) * dt;
}
