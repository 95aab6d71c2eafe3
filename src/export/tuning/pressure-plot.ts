import type { SweepResult } from '../../tuning/engine/results.js';
import type { LinePlot } from './line-plot.js';

/** Crank degrees a plot begins at and ends at: the exhaust stroke and the overlap stand in its middle. */
const FROM = 90;
const TO = 500;

/**
 * Pressure behind the exhaust valve of the first cylinder against crank angle, one line for each exhaust, at the engine speed nearest
 * to one asked for. The overlap is marked. Throws RangeError without results.
 */
export function pressurePlot(sweeps: readonly SweepResult[], rpm: number, names: (system: string) => string): LinePlot {
  const [first] = sweeps;
  if (first === undefined) throw new RangeError('nothing was calculated');
  const off = (p: { readonly rpm: number }): number => Math.abs(p.rpm - rpm);
  const nearest = first.points.reduce((a, p) => (off(p) < off(a) ? p : a)).rpm;
  const { cylinder } = first.points[0]!.cylinders[0]!;
  const { exhaustOpens, exhaustCloses, intakeOpens } = first.events;
  const overlap = exhaustCloses > intakeOpens ? [{ from: intakeOpens, to: exhaustCloses, label: 'overlap' }] : [];
  return {
    title: `Pressure behind the exhaust valve of cylinder ${cylinder} at ${nearest.toFixed(0)} rev/min`,
    x: { label: 'Crank angle after firing top dead centre', unit: 'deg' },
    y: { label: 'Pressure', unit: 'kPa' },
    bands: [{ from: exhaustOpens, to: Math.min(intakeOpens, exhaustCloses), label: 'exhaust open' }, ...overlap],
    lines: sweeps.map((s) => {
      const { valvePressure } = s.points
        .find((p) => p.rpm === nearest)!
        .cylinders.find((c) => c.cylinder === cylinder)!;
      const points = Array.from(valvePressure, (p, deg) => [deg, p / 1000] as const);
      return { label: names(s.system), points: points.filter(([deg]) => deg >= FROM && deg <= TO) };
    }),
  };
}
