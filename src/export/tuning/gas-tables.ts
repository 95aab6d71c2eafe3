import type { SweepResult } from '../../tuning/engine/results.js';
import { type CsvCell, csvBytes } from '../csv.js';
import type { OutputFile } from '../output-file.js';

/** Tables of a sweep: one row for every speed and cylinder, the pressures of every cylinder over the crank, and what was assumed. */
export function gasTables(sweep: SweepResult): OutputFile[] {
  const stem = `tuning/${fileStem(sweep.system)}`;
  const cylinders = sweep.points[0]?.cylinders.map((c) => c.cylinder) ?? [];
  return [
    table(`${stem}-cycle.csv`, CYCLE_HEAD, cycleRows(sweep)),
    ...cylinders.map((cylinder, i) =>
      table(`${stem}-pressure-cylinder-${cylinder}.csv`, pressureHead(sweep), pressureRows(sweep, i)),
    ),
    table(`${stem}-outlets.csv`, OUTLET_HEAD, outletRows(sweep)),
    table(`${stem}-assumptions.csv`, ['assumption'], [[sweep.caution], ...sweep.assumptions.map((line) => [line])]),
  ];
}

const table = (path: string, head: readonly string[], rows: readonly (readonly CsvCell[])[]): OutputFile => ({
  path,
  kind: 'tuning',
  bytes: csvBytes(head, rows),
});

/** 'as routed' to 'as-routed'. */
export const fileStem = (name: string): string =>
  name
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '');

const CYCLE_HEAD = [
  'rpm',
  'cylinder',
  'overlap_difference_pa',
  'pumping_work_j',
  'indicated_work_j',
  'rarefaction_at_deg',
  'rarefaction_depth_pa',
  'mass_exhausted_kg',
  'fresh_charge_kg',
  'charging_efficiency',
  'residual_fraction',
  'exhaust_temperature_k',
  'converged',
  'cycles',
  'change',
];

const cycleRows = ({ points }: SweepResult): CsvCell[][] =>
  points.flatMap(({ rpm, cylinders, convergence }) =>
    cylinders.map((c) => [
      rpm,
      c.cylinder,
      c.overlapDifference,
      c.pumpingWork,
      c.indicatedWork,
      c.rarefactionAt,
      c.rarefactionDepth,
      c.massExhausted,
      c.freshCharge,
      c.chargingEfficiency,
      c.residualFraction,
      c.exhaustTemperature,
      convergence.converged ? 'yes' : 'no',
      convergence.cycles,
      convergence.change,
    ]),
  );

/** Behind the valve and in the cylinder, for every speed. */
const pressureHead = ({ points }: SweepResult): string[] => [
  'crank_deg_after_firing_tdc',
  ...points.flatMap(({ rpm }) => [`valve_pa_at_${rpm}_rpm`, `cylinder_pa_at_${rpm}_rpm`]),
];

const pressureRows = ({ points }: SweepResult, i: number): CsvCell[][] =>
  Array.from({ length: points[0]!.cylinders[i]!.valvePressure.length }, (_, degree) => [
    degree,
    ...points.flatMap(({ cylinders }) => [
      pascal(cylinders[i]!.valvePressure[degree]!),
      pascal(cylinders[i]!.cylinderPressure[degree]!),
    ]),
  ]);

/** Whole Pa: the rest is no measurement and makes the file three times as large. */
const pascal = (p: number): number => Math.round(p);

const OUTLET_HEAD = ['rpm', 'pipe', 'mass_kg_a_cycle', 'pulse_energy_j_a_cycle', 'steady_energy_j_a_cycle'];

const outletRows = ({ points }: SweepResult): CsvCell[][] =>
  points.flatMap(({ rpm, outlets }) => outlets.map((o) => [rpm, o.pipe, o.mass, o.pulseEnergy, o.steadyEnergy]));
