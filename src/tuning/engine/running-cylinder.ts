import { BURNED, internalEnergy, mixed } from '../gas/gas.js';
import { filledVolume, type GasNetwork, type GasVolume, reservoirOf } from '../gas/network.js';
import { type ClosedCycle, closedCycle } from './closed-cycle.js';
import { type CrankTrace, CYCLE, crankTrace, fillTrace } from './crank-trace.js';
import { type IntakePort, stepCylinder } from './cylinder.js';
import { GASES, type ValveEnd } from './exhaust-network.js';
import type { GasEngine } from './gas-engine.js';
import { cylinderVolume } from './piston.js';
import { effectiveArea } from './valve.js';

/** A cylinder as it runs. */
export interface RunningCylinder {
  readonly valve: ValveEnd;
  readonly gas: GasVolume;
  readonly port: IntakePort;
  /** Its own crank angle, deg, from 0 to below 720. */
  angle: number;
  /** Set while both valves are shut. */
  closed: ClosedCycle | null;
  readonly sums: CylinderSums;
  readonly valveTrace: CrankTrace;
  readonly cylinderTrace: CrankTrace;
}

/** What is summed over a cycle; SI units. */
export interface CylinderSums {
  pumping: number;
  work: number;
  exhausted: number;
  exhaustEnthalpy: number;
  drawn: number;
  freshCharge: number;
  residual: number;
}

const nothing = (): CylinderSums => ({
  pumping: 0,
  work: 0,
  exhausted: 0,
  exhaustEnthalpy: 0,
  drawn: 0,
  freshCharge: 0,
  residual: 0,
});

/** A cylinder before its first cycle, at a crank angle of its own. */
export function startCylinder(engine: GasEngine, network: GasNetwork, valve: ValveEnd, angle: number): RunningCylinder {
  const gas = network.volumes[valve.volume]!;
  const open = angle >= engine.exhaust.opens && angle < engine.intake.closes;
  const { intakePressure, intakeTemperature } = engine;
  // a guess: exhaust gas while the valves are open, else a charge with a little of it
  const first = {
    pressure: intakePressure,
    temperature: open ? 1000 : intakeTemperature + 40,
    burned: open ? 1 : 0.05,
  };
  const volume = cylinderVolume(engine, open ? angle : engine.intake.closes);
  Object.assign(gas, filledVolume(GASES, volume, first));
  return {
    valve,
    gas,
    port: { mass: 0, enthalpy: 0, burned: 0 },
    angle,
    closed: open ? null : closedOf(engine, gas),
    sums: nothing(),
    valveTrace: crankTrace(),
    cylinderTrace: crankTrace(),
  };
}

export const clearSums = (cylinder: RunningCylinder): void => {
  Object.assign(cylinder.sums, nothing());
};

/** Opens the exhaust valve as far as the step to come needs. */
export function setValve(engine: GasEngine, { valve, angle, closed }: RunningCylinder): void {
  valve.end.share = closed === null ? effectiveArea(engine.exhaust, angle) / valve.area : 0;
}

/** Moves a cylinder on by some crank degrees in `dt` s, after the network has moved the gas through its exhaust valve. */
export function runCylinder(
  engine: GasEngine,
  network: GasNetwork,
  cylinder: RunningCylinder,
  degrees: number,
  dt: number,
): void {
  const { valve, gas, sums, port } = cylinder;
  const from = cylinder.angle;
  const to = from + degrees;
  const duct = network.ducts[valve.end.duct]!;
  const through = duct.shape.faceArea[0]! * dt;
  sums.exhausted += duct.fluxMass[0]! * through;
  sums.exhaustEnthalpy += duct.fluxEnergy[0]! * through;
  let work: number;
  if (cylinder.closed === null) {
    const step = stepCylinder(gas, port, engine, GASES, from, to, dt);
    sums.drawn += step.drawn;
    work = step.work;
  } else {
    const middle = cylinder.closed.pressureAt((from + degrees / 2) % CYCLE);
    work = middle * (cylinderVolume(engine, to) - cylinderVolume(engine, from));
  }
  sums.work += work;
  if (from >= 180 && from < 540) sums.pumping -= work;
  fillTrace(cylinder.valveTrace, from, to, duct.pressure[0]!);
  fillTrace(
    cylinder.cylinderTrace,
    from,
    to,
    cylinder.closed?.pressureAt(to % CYCLE) ?? reservoirOf(gas, GASES).pressure,
  );
  if (cylinder.closed === null && from < engine.intake.closes && to >= engine.intake.closes) shut(engine, cylinder);
  else if (cylinder.closed !== null && from < engine.exhaust.opens && to >= engine.exhaust.opens)
    open(engine, cylinder, to);
  cylinder.angle = to >= CYCLE ? to - CYCLE : to;
}

/** The intake valve closes: what is caught. */
function shut(engine: GasEngine, cylinder: RunningCylinder): void {
  const { gas, sums } = cylinder;
  sums.freshCharge = gas.mass - gas.burned;
  sums.residual = gas.burned / gas.mass;
  cylinder.closed = closedOf(engine, gas);
}

function closedOf(engine: GasEngine, gas: GasVolume): ClosedCycle {
  const caught = reservoirOf(gas, GASES);
  return closedCycle(engine, caught, mixed(GASES, caught.burned).r, BURNED.r);
}

/** The exhaust valve opens: the same mass, all of it burned. */
function open(engine: GasEngine, cylinder: RunningCylinder, angle: number): void {
  const { gas } = cylinder;
  gas.volume = cylinderVolume(engine, angle);
  gas.temperature = cylinder.closed!.temperatureAtOpening;
  gas.burned = gas.mass;
  gas.energy = gas.mass * internalEnergy(BURNED, gas.temperature);
  cylinder.closed = null;
}
