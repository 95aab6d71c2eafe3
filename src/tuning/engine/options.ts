import { checkRange } from './gas-engine.js';

/** How an exhaust is calculated. SI units. */
export interface SimulateOptions {
  /** Length of a cell, m: pipes are cut into whole cells of about that. */
  readonly cellLength: number;
  /** Temperature of the inner skin of the pipes, K. */
  readonly pipeWall: number;
  /** The open air. */
  readonly airPressure: number;
  readonly airTemperature: number;
  /**
   * Loss coefficient at every mouth of a joint, on the dynamic pressure in that mouth; 0 is the plain constant-pressure joint, in which
   * only gas that enters loses its speed.
   */
  readonly jointLoss: number;
  /** Cycles at most. */
  readonly mostCycles: number;
  /** Change from cycle to cycle, as a fraction, below which the state counts as periodic. */
  readonly limit: number;
}

const DEFAULT_OPTIONS: SimulateOptions = {
  cellLength: 0.015,
  pipeWall: 750,
  airPressure: 101_325,
  airTemperature: 293.15,
  jointLoss: 0,
  mostCycles: 25,
  limit: 0.003,
};

/** Options with what is left out filled in. Throws RangeError for what is unphysical, with the range. */
export function optionsOf(given: Partial<SimulateOptions> = {}): SimulateOptions {
  const options = { ...DEFAULT_OPTIONS, ...given };
  checkRange('length of a cell', options.cellLength, 0.002, 0.1, 'm');
  checkRange('temperature of the pipes', options.pipeWall, 250, 1400, 'K');
  checkRange('pressure of the air', options.airPressure, 4e4, 1.2e5, 'Pa');
  checkRange('temperature of the air', options.airTemperature, 230, 330, 'K');
  checkRange('loss coefficient of a joint', options.jointLoss, 0, 5, '');
  checkRange('cycles', options.mostCycles, 2, 200, '');
  checkRange('limit of change', options.limit, 1e-7, 0.1, '');
  return options;
}

/** Engine speeds that a calculation takes, rev/min. Throws RangeError beyond. */
export function checkedRpm(rpm: number): number {
  checkRange('engine speed', rpm, 300, 25_000, 'rev/min');
  return rpm;
}
