import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { plateFiles } from '../../src/export/print/print-3mf.js';
import { flangesOf } from '../../src/parts/flange/flange.js';
import { fitCoupon } from '../../src/parts/jigs/fit-coupon.js';
import { mockUpOf } from '../../src/parts/jigs/jigs.js';
import { type PrintPlate, platesOfMockUp } from '../../src/parts/print-plates/print-plates.js';
import { PRINT } from '../support/print-plan.js';
import { requireTool } from '../support/tools.js';
import { twin } from '../support/twin.js';

/** The plan's way of printing as the slicer's own settings; all others are those it comes with. */
const SETTINGS = [
  ['--layer-height', PRINT.layer],
  ['--first-layer-height', PRINT.layer],
  ['--perimeters', PRINT.walls],
  ['--extrusion-width', PRINT.lineWidth],
  ['--fill-density', `${100 * PRINT.infill}%`],
  ['--top-solid-layers', PRINT.solidLayers],
  ['--bottom-solid-layers', PRINT.solidLayers],
  ['--filament-density', PRINT.density / 1000],
  ['--filament-diameter', 1.75],
  ['--nozzle-diameter', 0.4],
  ['--skirts', 0],
  ['--bed-shape', '0x0,210x0,210x210,0x210'],
].flat();

describe('build plates in a slicer', () => {
  let folder = '';
  let plates: readonly PrintPlate[] = [];
  const pathOf = (i: number): string => join(folder, `plate-${i}.3mf`);

  beforeAll(async () => {
    const { plan, primaries } = twin();
    const jigs = mockUpOf({ plan, primaries, secondaries: [], flanges: flangesOf(plan) }).parts;
    const all = platesOfMockUp(fitCoupon(plan.jig), jigs, plan.jig);
    expect(all.tooBig).toEqual([]);
    plates = all.plates;
    folder = mkdtempSync(join(tmpdir(), 'plates-'));
    for (const [i, file] of (await plateFiles(plates, plan.name)).entries()) writeFileSync(pathOf(i), file.bytes);
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('are manifold, need no repair, and hold as many parts as they should', (context) => {
    const slicer = requireTool('prusa-slicer', context);
    plates.forEach((plate, i) => {
      const told = spawnSync(slicer, ['--info', pathOf(i)], { encoding: 'utf8' });
      const text = told.stdout + told.stderr;
      expect(text, plate.name).not.toMatch(/repair|open_edges = [1-9]|facets_(removed|reversed) = [1-9]/i);
      expect(text.match(/manifold = yes/g), plate.name).toHaveLength(plate.parts.length);
      expect(text.match(/number_of_parts = *1\b/g), plate.name).toHaveLength(plate.parts.length);
    });
  });

  it('are sliced where they lie, on the bed, and take about the plastic and time that was estimated', (context) => {
    const slicer = requireTool('prusa-slicer', context);
    const sliced = plates.map((plate, i) => {
      const gcode = join(folder, `${i}.gcode`);
      const args = ['--export-gcode', '--dont-arrange', ...SETTINGS.map(String), '-o', gcode, pathOf(i)];
      const told = spawnSync(slicer, args, { encoding: 'utf8' });
      expect(told.status, told.stderr).toBe(0);
      expect(told.stdout + told.stderr, plate.name).not.toMatch(/repair|outside|error/i);
      const text = readFileSync(gcode, 'utf8');
      const moves = [...text.matchAll(/^G1 X(-?[\d.]+) Y(-?[\d.]+) E[\d.]+/gm)];
      expect(moves.length).toBeGreaterThan(1000);
      const at = moves.flatMap(([, x, y]) => [Number(x), Number(y)]);
      expect(
        at.reduce((m, v) => Math.min(m, v)),
        plate.name,
      ).toBeGreaterThan(-0.01);
      expect(
        at.reduce((m, v) => Math.max(m, v)),
        plate.name,
      ).toBeLessThan(210.01);
      return { ...figuresOf(text), plate };
    });
    for (const { volume, time, plate } of sliced) {
      expect(Math.abs(plate.estimate.plastic / volume - 1), `${plate.name} plastic`).toBeLessThan(0.12);
      expect(Math.abs(plate.estimate.time / time - 1), `${plate.name} time`).toBeLessThan(0.3);
      // the slicer's own mass of its own volume at the same density
      expect(plate.estimate.mass / plate.estimate.plastic).toBeCloseTo(PRINT.density * 1e-9, 12);
    }
  });
});

/** What a slicer says of its own work at the end of the file: mm3 and s. */
function figuresOf(gcode: string): { volume: number; time: number } {
  const volume = 1000 * Number(/filament used \[cm3\] = ([\d.]+)/.exec(gcode)![1]);
  const words = /estimated printing time \(normal mode\) = (.*)/.exec(gcode)![1]!;
  const unit = (letter: string): number => Number(new RegExp(`(\\d+)${letter}`).exec(words)?.[1] ?? 0);
  return { volume, time: ((unit('d') * 24 + unit('h')) * 60 + unit('m')) * 60 + unit('s') };
}
