import { describe, expect, it } from 'vitest';
import { printPlatesTable } from '../../../src/export/csv/print-plates-table.js';
import { WORLD } from '../../../src/geometry/frame.js';
import { evaluate } from '../../../src/geometry/solid/solid.js';
import { box } from '../../../src/geometry/solid/solid-shapes.js';
import type { SolidPart } from '../../../src/parts/part.js';
import { printEstimate, together } from '../../../src/parts/print-plates/print-estimate.js';
import { platesOfMockUp, printPlates } from '../../../src/parts/print-plates/print-plates.js';
import { printedPart } from '../../../src/parts/printed-part.js';
import { PRINT } from '../../support/print-plan.js';
import { twin } from '../../support/twin.js';

const jig = { ...twin([100, 100, 60]).plan.jig, print: PRINT };
const brick = (name: string, x: number, y: number, z: number): SolidPart => {
  const solid = box([0, 0, 0], [x, y, z]);
  return printedPart({ name, kind: 'port-plug', title: name, solid, at: WORLD, up: WORLD }, jig.bed);
};

describe('build plates', () => {
  it('hold every copy once, share the bed honestly, and sum what their parts take', () => {
    const [a, b] = [brick('a', 60, 40, 10), brick('b', 30, 30, 20)];
    const { plates, fewest, tooBig } = printPlates(
      [
        { part: a, count: 3 },
        { part: b, count: 4 },
      ],
      jig,
    );
    const all = plates.flatMap((p) => p.parts.map((l) => l.part.name)).sort();
    expect(all).toEqual(['a', 'a', 'a', 'b', 'b', 'b', 'b']);
    expect(tooBig).toEqual([]);
    // 7200 + 3600 mm2 on beds of 10000 mm2
    expect(fewest).toBe(2);
    expect(plates.reduce((sum, p) => sum + p.fill, 0)).toBeCloseTo(1.08, 2);
    for (const plate of plates) {
      const own = plate.parts.map((l) => printEstimate(l.part.mesh, PRINT));
      expect(plate.estimate.plastic).toBeCloseTo(together(own).plastic, 6);
    }
  });

  it('leave out what is too wide or too high, and say so in the table', () => {
    const [ok, wide, high] = [brick('ok', 20, 20, 20), brick('wide', 150, 150, 5), brick('high', 20, 20, 70)];
    const found = platesOfMockUp([ok], [wide, high], jig);
    expect(found.plates.map((p) => p.name)).toEqual(['fit-coupon-1']);
    expect(found.tooBig.map((p) => p.name)).toEqual(['wide', 'high']);
    const text = new TextDecoder().decode(printPlatesTable(found, PRINT, []).bytes);
    const rows = text
      .trim()
      .split('\r\n')
      .map((l) => l.split(','));
    expect(rows.map((r) => r.slice(0, 3))).toEqual([
      ['plate', 'part', 'copies'],
      ['fit-coupon-1', 'ok', '1'],
      ['fit-coupon-1', 'whole plate', '1'],
      ['', 'wide', '0'],
      ['', 'high', '0'],
    ]);
    expect(rows[3]!.at(-1)).toBe('does not fit the bed');
  });
});

describe('estimates', () => {
  it('of a box are walls, solid layers and filling as stated', () => {
    // closed form of the stated model: upright faces 4 x 40 x 30 mm2, level faces 2 x 40 x 40 mm2
    const spacing = 0.45 - 0.2 * (1 - Math.PI / 4);
    const skin = 4800 * 3 * spacing + 3200 * 4 * 0.2;
    const filling = 0.15 * (48_000 - skin);
    const found = printEstimate(evaluate(box([0, 0, 0], [40, 40, 30])), PRINT);
    expect(found.plastic).toBeCloseTo(skin + filling, 3);
    expect(found.mass).toBeCloseTo((skin + filling) * 1.24e-6, 9);
    expect(found.time).toBeCloseTo(skin / 2.3 + filling / 9 + 150 * 0.5, 3);
  });

  it('never exceed the part itself, and reach it when it is filled', () => {
    const thin = evaluate(box([0, 0, 0], [40, 40, 1]));
    expect(printEstimate(thin, PRINT).plastic).toBeCloseTo(1600, 6);
    const full = printEstimate(evaluate(box([0, 0, 0], [40, 40, 30])), { ...PRINT, infill: 1 });
    expect(full.plastic).toBeCloseTo(48_000, 3);
  });
});
