import type { SweepResult } from '../../tuning/engine/results.js';
import { csvBytes } from '../csv/csv.js';
import type { OutputFile } from '../output-file.js';

/** What was calculated for every exhaust, engine speed and cylinder: kPa, J, kg, K, crank degrees. */
export function sweepTable(sweeps: readonly SweepResult[]): OutputFile {
  const rows = sweeps.flatMap((s) =>
    s.points.flatMap((p) =>
      p.cylinders.map((c) => [
        s.system,
        p.rpm,
        c.cylinder,
        c.overlapDifference === null ? null : c.overlapDifference / 1000,
        c.pumpingWork,
        c.rarefactionAt,
        c.rarefactionDepth / 1000,
        c.massExhausted,
        c.freshCharge,
        c.chargingEfficiency,
        c.residualFraction,
        c.exhaustTemperature,
        p.convergence.converged ? 'yes' : 'no',
      ]),
    ),
  );
  const head = [
    'exhaust',
    'rpm',
    'cylinder',
    'overlap_difference_kpa',
    'pumping_work_j',
    'rarefaction_at_deg',
    'rarefaction_depth_kpa',
    'mass_exhausted_kg',
    'fresh_charge_kg',
    'charging_efficiency',
    'residual_fraction',
    'exhaust_temperature_k',
    'periodic',
  ];
  return { path: 'tuning/sweep.csv', kind: 'tuning', bytes: csvBytes(head, rows) };
}

/** Pressure behind every exhaust valve, kPa, at every second crank degree. */
export function pressureTable(sweeps: readonly SweepResult[]): OutputFile {
  const angles = Array.from({ length: 360 }, (_, i) => 2 * i);
  const columns = sweeps.flatMap((s) =>
    s.points.flatMap((p) =>
      p.cylinders.map((c) => ({
        head: `${s.system}, ${p.rpm.toFixed(0)} rev/min, cylinder ${c.cylinder}`,
        values: c.valvePressure,
      })),
    ),
  );
  const rows = angles.map((deg) => [deg, ...columns.map((c) => Math.round(c.values[deg]! / 10) / 100)]);
  return {
    path: 'tuning/pressure.csv',
    kind: 'tuning',
    bytes: csvBytes(['crank_deg', ...columns.map((c) => `${c.head} (kPa)`)], rows),
  };
}
