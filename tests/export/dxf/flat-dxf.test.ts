import { describe, expect, test } from 'vitest';
import { FLAT_LAYERS, flatDxf } from '../../../src/export/dxf/flat-dxf.js';
import { outlineArea } from '../../../src/geometry/outline/measure.js';
import type { Plan } from '../../../src/params/plan.js';
import { flangesOf } from '../../../src/parts/flange/flange.js';
import { flatFlange } from '../../../src/parts/plates/flat-flange.js';
import { inlineFour, single, veeBank } from '../../support/plan-fixture.js';
import { type DxfReading, readDxf } from '../../support/read-dxf.js';
import { requireTool } from '../../support/tools.js';

const CUTS = ['CUT_INNER', 'CUT_OUTER'];

const plans: readonly (readonly [string, Plan])[] = [
  ['inline four, drilled', inlineFour()],
  ['vee bank in thin plate, kerf moved', veeBank({ thickness: 6, kerf: { width: 1.6, compensate: true } })],
  ['single', single({ thickness: 5 })],
];

describe.each(plans)('%s', (_, plan) => {
  const part = flangesOf(plan)[0]!;
  const read = (context: Parameters<typeof requireTool>[1]): DxfReading =>
    readDxf(requireTool('ezdxf', context), flatDxf(flatFlange(part)).bytes);

  test('audits clean, in mm, on its layers', (context) => {
    const { errors, fixes, header, layers, handles } = read(context);
    expect({ errors, fixes }).toEqual({ errors: [], fixes: [] });
    expect(header).toMatchObject({ $INSUNITS: 4, $MEASUREMENT: 1 });
    expect(layers).toEqual(expect.arrayContaining(FLAT_LAYERS.map((l) => l.name)));
    expect(handles.seed).toBeGreaterThan(handles.highest);
  });

  test('every contour to cut is closed once; nothing else lies on a cut layer', (context) => {
    for (const e of read(context).entities.filter((e) => CUTS.includes(e.layer))) {
      expect(e).toMatchObject({ type: expect.stringMatching(/^(LWPOLYLINE|CIRCLE)$/), closed: true, repeated: false });
      for (const b of e.bulges) expect(Math.abs(b)).toBeLessThanOrEqual(Math.SQRT2 - 1 + 1e-6);
    }
  });

  test('areas read back are those of the part within 1e-6', (context) => {
    const { entities } = read(context);
    const areas = (layer: string): number[] =>
      entities.filter((e) => e.layer === layer && e.area !== null).map((e) => e.area!);
    const outer = outlineArea(part.cut.outer);
    expect(areas('CUT_OUTER')).toHaveLength(1);
    expect(Math.abs(areas('CUT_OUTER')[0]! / outer - 1)).toBeLessThan(1e-6);
    const cutHoles = part.cut.bolts.filter((b) => !b.drill).map((b) => (Math.PI * b.diameter ** 2) / 4);
    const inner = [...part.cut.openings.map((o) => outlineArea(o.outline)), ...cutHoles].sort((a, b) => a - b);
    const found = areas('CUT_INNER').sort((a, b) => a - b);
    expect(found).toHaveLength(inner.length);
    for (const [i, area] of found.entries()) expect(Math.abs(area / inner[i]! - 1)).toBeLessThan(1e-6);
    expect(areas('DRILL')).toHaveLength(part.cut.bolts.filter((b) => b.drill).length);
  });

  test('the notes carry a line of 100 mm, the size and the kerf, apart from what is cut', (context) => {
    const { entities, header } = read(context);
    const notes = entities.filter((e) => e.layer === 'NOTES');
    expect(notes.some((e) => e.type === 'LINE' && Math.abs(e.length! - 100) < 1e-9)).toBe(true);
    const words = notes.flatMap((e) => e.text ?? []).join('\n');
    expect(words).toContain(`${part.size[0].toFixed(2)} x ${part.size[1].toFixed(2)} mm`);
    expect(words).toMatch(part.kerf.compensated ? /: COMPENSATED/ : /NOT COMPENSATED/);
    expect(words).toContain('100 mm LONG');
    expect(words).toContain('UP');
    const [low, high] = [header.$EXTMIN as number[], header.$EXTMAX as number[]];
    for (const e of entities.filter((e) => e.extent !== null)) {
      expect(e.extent![0]).toBeGreaterThanOrEqual(low[0]! - 1e-3);
      expect(e.extent![3]).toBeLessThanOrEqual(high[1]! + 1e-3);
    }
  });
});

test('a plan named in any script makes a drawing; the same plan makes the same bytes', () => {
  const plan: Plan = { ...single(), name: 'Krümmer №1 – тест' };
  const once = flatDxf(flatFlange(flangesOf(plan)[0]!));
  expect(once).toMatchObject({ path: 'flange.dxf', kind: 'flange-drawing' });
  expect(Buffer.from(once.bytes).toString('latin1')).toContain('Krummer');
  expect(flatDxf(flatFlange(flangesOf(plan)[0]!)).bytes).toEqual(once.bytes);
});
