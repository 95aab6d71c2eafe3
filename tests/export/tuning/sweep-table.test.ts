import { beforeAll, describe, expect, it } from 'vitest';
import type { OutputFile } from '../../../src/export/output-file.js';
import { pressureTable, sweepTable } from '../../../src/export/tuning/sweep-table.js';
import type { SweepResult } from '../../../src/tuning/engine/results.js';
import { sweep } from '../../../src/tuning/engine/sweep.js';
import { csvRows } from '../../support/csv-rows.js';
import { ENGINE, fourIntoOne } from '../../support/simple-exhaust.js';

let swept: SweepResult;
const rowsOf = ({ bytes }: OutputFile) => csvRows(bytes);

beforeAll(async () => {
  const gas = { cellLength: 0.06, mostCycles: 3 };
  swept = await sweep(fourIntoOne([0.6, 0.6, 0.7, 0.7]), ENGINE, [7000, 8000], { gas });
});

describe('the tables of a sweep', () => {
  it('have a row for every speed and cylinder at full precision', () => {
    const rows = rowsOf(sweepTable([swept]));
    expect(rows.map((r) => `${r.rpm}/${r.cylinder}`)).toEqual(
      [7000, 8000].flatMap((rpm) => [1, 2, 3, 4].map((c) => `${rpm}/${c}`)),
    );
    const c = swept.points[1]!.cylinders[2]!;
    expect(Number(rows[6]!.pumping_work_j)).toBe(c.pumpingWork);
    expect(Number(rows[6]!.rarefaction_at_deg)).toBe(c.rarefactionAt);
    expect(Number(rows[6]!.rarefaction_depth_kpa)).toBe(c.rarefactionDepth / 1000);
  });

  it('have the pressures of every second degree, to ten pascal', () => {
    const [header, ...rows] = new TextDecoder()
      .decode(pressureTable([swept]).bytes)
      .trimEnd()
      .split('\r\n')
      .map((line) => line.match(/"[^"]*"|[^,]+/g)!);
    const column = header!.indexOf(`"${swept.system}, 8000 rev/min, cylinder 2 (kPa)"`);
    expect(rows).toHaveLength(360);
    expect(rows[177]![0]).toBe('354');
    const shown = Number(rows[177]![column]);
    expect(Math.abs(shown - swept.points[1]!.cylinders[1]!.valvePressure[354]! / 1000)).toBeLessThanOrEqual(0.005);
  });
});
