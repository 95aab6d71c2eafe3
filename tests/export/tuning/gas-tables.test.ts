import { beforeAll, describe, expect, it } from 'vitest';
import { fileStem, gasTables } from '../../../src/export/tuning/gas-tables.js';
import type { SweepResult } from '../../../src/tuning/engine/results.js';
import { sweep } from '../../../src/tuning/engine/sweep.js';
import { csvRows } from '../../support/csv-rows.js';
import { ENGINE, fourIntoOne } from '../../support/simple-exhaust.js';

let swept: SweepResult;
const bytesOf = (path: string): Uint8Array => gasTables(swept).find((f) => f.path === `tuning/${path}`)!.bytes;

beforeAll(async () => {
  const gas = { cellLength: 0.06, mostCycles: 3 };
  swept = await sweep(fourIntoOne([0.6, 0.6, 0.7, 0.7]), ENGINE, [7000, 8000], { gas });
});

describe('the tables of a sweep', () => {
  it('are one for the cycles, one for every cylinder, one for the ends, one for what was assumed', () => {
    expect(gasTables(swept).map((f) => f.path)).toEqual([
      'tuning/four-into-one-cycle.csv',
      ...[1, 2, 3, 4].map((c) => `tuning/four-into-one-pressure-cylinder-${c}.csv`),
      'tuning/four-into-one-outlets.csv',
      'tuning/four-into-one-assumptions.csv',
    ]);
  });

  it('have a row for every speed and cylinder at full precision', () => {
    const rows = csvRows(bytesOf('four-into-one-cycle.csv'));
    expect(rows.map((r) => `${r.rpm}/${r.cylinder}`)).toEqual(
      [7000, 8000].flatMap((rpm) => [1, 2, 3, 4].map((c) => `${rpm}/${c}`)),
    );
    const c = swept.points[1]!.cylinders[2]!;
    expect(Number(rows[6]!.pumping_work_j)).toBe(c.pumpingWork);
    expect(Number(rows[6]!.rarefaction_at_deg)).toBe(c.rarefactionAt);
  });

  it('have the pressures of every whole degree, to the pascal', () => {
    const rows = csvRows(bytesOf('four-into-one-pressure-cylinder-2.csv'));
    expect(rows.length).toBe(720);
    expect(rows[355]!.crank_deg_after_firing_tdc).toBe('355');
    const { valvePressure, cylinderPressure } = swept.points[1]!.cylinders[1]!;
    expect(Number(rows[355]!.valve_pa_at_8000_rpm)).toBe(Math.round(valvePressure[355]!));
    expect(Number(rows[355]!.cylinder_pa_at_8000_rpm)).toBe(Math.round(cylinderPressure[355]!));
  });

  it('leave a turbine that is not there empty, and begin the assumptions with the caution', () => {
    expect(csvRows(bytesOf('four-into-one-outlets.csv'))[0]!.pulse_energy_j_a_cycle).toBe('');
    const [head, first] = new TextDecoder().decode(bytesOf('four-into-one-assumptions.csv')).split('\r\n');
    expect(head).toBe('assumption');
    expect(first).toContain('The dyno and the engine builder decide');
  });

  it('have names that every disk takes', () => {
    expect(fileStem('Equal lengths (4-2-1)')).toBe('equal-lengths-4-2-1');
  });
});
