import { exhaustNetwork } from '../../src/tuning/engine/exhaust-network.js';
import { optionsOf } from '../../src/tuning/engine/options.js';
import { readPrimitives, setCell } from '../../src/tuning/gas/duct-gas.js';
import { AIR, soundSpeed } from '../../src/tuning/gas/gas.js';
import { OPEN_AIR, pipe, run } from '../support/gas-pipe.js';
import { lonePipe } from '../support/simple-exhaust.js';
import type { VerificationRow } from './row.js';

/** Frequency, Hz, at which gas in a pipe swings: from the times at which the pressure at its closed end rises through the outer one. */
function frequency(
  rung: { pressure: () => number; run: (each: (now: number) => void) => void },
  beyond: number,
): number {
  const rises: number[] = [];
  let before = rung.pressure() - beyond;
  let then = 0;
  rung.run((now) => {
    const over = rung.pressure() - beyond;
    if (before < 0 && over >= 0) rises.push(then + ((now - then) * before) / (before - over));
    [before, then] = [over, now];
  });
  return (rises.length - 1) / (rises.at(-1)! - rises[0]!);
}

/** A bare pipe, closed at its start and open at its end, rung at a note: 1 is the lowest, 3 the next. */
export function stoppedPipe(length: number, sound: number, note: number, cells: number): number {
  const t = sound ** 2 / (1.4 * 287.055);
  const beyond = { ...OPEN_AIR, temperature: t };
  const network = pipe(
    { length, cells, area: () => 1e-3 },
    (x) => {
      const pressure = beyond.pressure + 100 * Math.cos((note * Math.PI * x) / (2 * length));
      const density = (beyond.pressure / (287.055 * t)) * (pressure / beyond.pressure) ** (1 / 1.4);
      return { density, velocity: 0, pressure };
    },
    ['closed', beyond],
  );
  const { pressure } = network.ducts[0]!;
  return frequency(
    { pressure: () => pressure[0]!, run: (each) => run(network, (40 * length) / note / sound, each) },
    beyond.pressure,
  );
}

/** The pipe of an exhaust behind a shut valve, in cold air, with the end correction that every exhaust gets. */
function exhaustPipe(length: number, radius: number, flanged: boolean): { got: number; sound: number } {
  const options = optionsOf({ cellLength: length / 100 });
  const system = { ...lonePipe(length, 2 * radius), end: { kind: 'open', flanged } } as const;
  const { network } = exhaustNetwork(system, 5e-4, options);
  const duct = network.ducts[0]!;
  const whole = duct.shape.dx * duct.mass.length;
  const { airPressure, airTemperature } = options;
  for (let i = 0; i < duct.mass.length; i++) {
    const pressure = airPressure + 100 * Math.cos((Math.PI * (i + 0.5) * duct.shape.dx) / (2 * whole));
    const density = (airPressure / (AIR.r * airTemperature)) * (pressure / airPressure) ** (1 / 1.4);
    setCell(duct, i, { density, velocity: 0, pressure, burned: 0 });
  }
  readPrimitives(duct);
  const sound = soundSpeed(AIR, airTemperature);
  const got = frequency(
    { pressure: () => duct.pressure[0]!, run: (each) => run(network, (40 * length) / sound, each) },
    airPressure,
  );
  return { got, sound };
}

const stopped = (note: number, expected: number): VerificationRow => ({
  name: `Stopped pipe of 2 m at 343 m/s: note ${note}`,
  source: 'worked example, fe-physics.com, standing longitudinal waves',
  unit: 'Hz',
  error: 'relative',
  limit: 0.003,
  measure: () => ({ expected, got: stoppedPipe(2, 343, note, 100) }),
});

const corrected = (name: string, flanged: boolean, correction: number, source: string): VerificationRow => ({
  name: `Closed-open pipe of 0.5 m, radius 20 mm, ${name}`,
  source,
  unit: 'Hz',
  error: 'relative',
  limit: 0.01,
  measure: () => {
    const { got, sound } = exhaustPipe(0.5, 0.02, flanged);
    return { expected: sound / (4 * (0.5 + correction * 0.02)), got };
  },
});

/** A small wave that meets a change of area: extremes of what is thrown back and what goes on, over the arriving 50 Pa. */
export function partedWave(a1: number, a2: number): { back: number; on: number } {
  const [t, p0, cells] = [300, 1e5, 800];
  const a = Math.sqrt(1.4 * 287.055 * t);
  const network = pipe(
    { length: 2, cells, area: (x) => (x < 1 - 1e-9 ? a1 : a2) },
    (x) => {
      const over = 50 * Math.exp(-(((x - 0.5) / 0.1) ** 2));
      const rho = p0 / (287.055 * t);
      return { density: rho + over / a ** 2, velocity: over / (rho * a), pressure: p0 + over };
    },
    ['closed', 'closed'],
  );
  run(network, 0.9 / a);
  const over = [...network.ducts[0]!.pressure].map((p) => (p - p0) / 50);
  const extreme = (values: number[]): number => values.reduce((m, v) => (Math.abs(v) > Math.abs(m) ? v : m), 0);
  return { back: extreme(over.slice(0, 0.42 * cells)), on: extreme(over.slice(0.58 * cells)) };
}

const parted = (a2: number): VerificationRow[] =>
  (['back', 'on'] as const).map((way) => ({
    name: `Wave at a change of area 1 to ${a2}: part ${way === 'back' ? 'thrown back' : 'that goes on'}`,
    source: 'plane waves (L. E. Kinsler, Fundamentals of Acoustics): (A1 - A2)/(A1 + A2), 2 A1/(A1 + A2)',
    unit: '',
    error: 'relative',
    limit: 0.005,
    measure: () => ({ expected: way === 'back' ? (1 - a2) / (1 + a2) : 2 / (1 + a2), got: partedWave(1, a2)[way] }),
  }));

export const pipeWaveRows: readonly VerificationRow[] = [
  stopped(1, 42.9),
  stopped(3, 128.5),
  corrected('unflanged', false, 0.6133, 'H. Levine, J. Schwinger, Phys. Rev. 73 (1948): 0.6133 r'),
  corrected('flanged', true, 0.82, 'tables of acoustics: 0.82 r'),
  ...parted(2.5),
  ...parted(0.5),
];
