import type { GasEngine } from '../../src/tuning/engine/gas-engine.js';
import type { ExhaustPipe, ExhaustSystem } from '../../src/tuning/exhaust-system.js';

/** A round pipe of one bore, m. */
export function roundPipe(
  name: string,
  from: ExhaustPipe['from'],
  to: ExhaustPipe['to'],
  length: number,
  bore: number,
): ExhaustPipe {
  const area = (Math.PI / 4) * bore ** 2;
  const stations = [
    { at: 0, area },
    { at: length, area },
  ];
  return { name, from, to, length, stations, bends: [], roughness: 3e-5, heatShare: 1 };
}

/** Primaries of one length, m, into one joint and a tail to the open air. */
export function fourIntoOne(
  lengths: readonly number[],
  bore = 0.041,
  tail = { length: 0.6, bore: 0.06 },
): ExhaustSystem {
  return {
    name: 'four into one',
    pipes: [
      ...lengths.map((l, i) => roundPipe(`cylinder ${i + 1}`, { cylinder: i + 1 }, { joint: 0 }, l, bore)),
      roundPipe('tail', { joint: 0 }, 'end', tail.length, tail.bore),
    ],
    joints: [{ name: 'collector', volume: 6e-4 }],
    end: { kind: 'open', flanged: false },
  };
}

/** One pipe from one cylinder to the open air, m. */
export const lonePipe = (length: number, bore = 0.041): ExhaustSystem => ({
  name: 'lone pipe',
  pipes: [roundPipe('cylinder 1', { cylinder: 1 }, 'end', length, bore)],
  joints: [],
  end: { kind: 'open', flanged: false },
});

/** An engine of half-litre cylinders. */
export const ENGINE: GasEngine = {
  bore: 0.086,
  stroke: 0.086,
  rodRatio: 1.65,
  compressionRatio: 10.5,
  firing: [1, 3, 4, 2].map((cylinder, i) => ({ cylinder, at: 180 * i })),
  exhaust: { count: 2, diameter: 0.028, lift: 0.0095, opens: 120, closes: 385, discharge: 0.7 },
  intake: { count: 2, diameter: 0.033, lift: 0.0095, opens: 335, closes: 600, discharge: 0.65 },
  intakePressure: 98_000,
  intakeTemperature: 310,
  closedCycle: { compression: 1.32, expansion: 1.27, rise: 2000 },
  wallTemperature: 450,
  assumptions: [],
};
