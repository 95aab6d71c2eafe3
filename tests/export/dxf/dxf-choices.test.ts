import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { DxfOptions } from '../../../src/export/dxf/drawing.js';
import { flatDxf } from '../../../src/export/dxf/flat-dxf.js';
import { readDxfFile } from '../../../src/geometry/dxf/file.js';
import { outlineArea } from '../../../src/geometry/outline/measure.js';
import { STARTERS } from '../../../src/params/text/starter.js';
import { flangesOf } from '../../../src/parts/flange/flange.js';
import { flatFlange } from '../../../src/parts/plates/flat-flange.js';
import type { FlatPart } from '../../../src/parts/plates/flat-part.js';
import { flatPartsOf } from '../../../src/parts/plates/flat-parts.js';
import { randomHead } from '../../support/flange-arbitrary.js';
import { type DxfMeasure, measureDxfs } from '../../support/measure-dxf.js';
import { inlineFour, single, veeBank } from '../../support/plan-fixture.js';
import { starterPlan } from '../../support/starter.js';
import { requireTool } from '../../support/tools.js';

/** Areas that were meant, by layer, mm2. */
function meant({ cut }: FlatPart): Readonly<Record<string, readonly number[]>> {
  const area = (all: readonly { readonly outline: FlatPart['cut']['outer'] }[]) =>
    all.map((o) => outlineArea(o.outline));
  const slots = cut.slots.map((outline) => ({ outline }));
  return {
    CUT_OUTER: [outlineArea(cut.outer)],
    CUT_INNER: area([...cut.openings, ...slots, ...cut.holes.filter((h) => !h.drill)]),
    DRILL: area(cut.holes.filter((h) => h.drill)),
  };
}

/** The drawing says what was meant: clean, every contour closed, areas within 1e-6, nothing else on a layer that is cut. */
function expectAsMeant(part: FlatPart, read: DxfMeasure, { units, version, curves }: DxfOptions): void {
  expect({ errors: read.errors, fixes: read.fixes }).toEqual({ errors: [], fixes: [] });
  expect(read.version).toBe(version === 'r12' ? 'AC1009' : 'AC1021');
  expect(read.insunits).toBe(units === 'in' ? 1 : 4);
  expect(read.most_arc).toBeLessThanOrEqual(Math.PI / 2 + 1e-6);
  const scale = units === 'in' ? 25.4 ** 2 : 1;
  const layers = Object.entries(meant(part)).filter(([layer]) => layer !== 'DRILL' || curves === 'polylines');
  for (const [layer, areas] of layers) {
    const found = (read.areas[layer] ?? []).map((a) => a * scale).sort((a, b) => a - b);
    expect(found, layer).toHaveLength(areas.length);
    [...areas]
      .sort((a, b) => a - b)
      .forEach((area, i) => {
        expect(Math.abs(found[i]! / area - 1), `${layer} ${area}`).toBeLessThan(1e-6);
      });
    if (layer !== 'DRILL') expect(read.open[layer] ?? 0, layer).toBe(0);
  }
  expect(read.jump).toBeLessThan(1e-8);
  expect(read.unequal).toBe(0);
}

const POLYLINE = { r2007: 'LWPOLYLINE', r12: 'POLYLINE' } as const;

const choices = (['mm', 'in'] as const).flatMap((units) =>
  (['r2007', 'r12'] as const).flatMap((version) =>
    (['polylines', 'lines_and_arcs'] as const).map((curves): DxfOptions => ({ units, version, curves })),
  ),
);

describe.each(choices)('$units, $version, $curves', (options) => {
  const parts = [inlineFour(), veeBank({ thickness: 6, kerf: { width: 1.6, compensate: true } }), single()].map(
    (plan) => flatFlange(flangesOf(plan)[0]!),
  );
  const drawings = parts.map((part) => flatDxf(part, options).bytes);

  test('audits clean and says what was meant', (context) => {
    const reads = measureDxfs(requireTool('ezdxf', context), drawings);
    reads.forEach((read, i) => {
      expectAsMeant(parts[i]!, read, options);
    });
    const types = new Set(reads.flatMap((r) => r.types.CUT_OUTER!));
    expect(types.has(POLYLINE[options.version])).toBe(options.curves === 'polylines');
    expect(types.has('ARC')).toBe(options.curves === 'lines_and_arcs');
  });

  test('a second reader takes it, tag by tag', () => {
    for (const bytes of drawings) {
      const file = readDxfFile(new TextDecoder().decode(bytes), 10_000);
      expect(file.units).toBe(options.units === 'in' ? 1 : 4);
      expect(new Set(file.entities.map((e) => e.layer))).toContain('CUT_OUTER');
    }
  });

  test('the line that shows the scale is as long as it says', () => {
    const file = readDxfFile(new TextDecoder().decode(drawings[0]), 10_000);
    const lengths = file.entities
      .filter((e) => e.layer === 'NOTES' && e.type === 'LINE')
      .map((e) => {
        const at = (code: number): number => Number(e.tags.find((t) => t.code === code)!.value);
        return Math.hypot(at(11) - at(10), at(21) - at(20));
      });
    expect(Math.max(...lengths)).toBeCloseTo(options.units === 'in' ? 4 : 100, 9);
  });

  test('the same drawing is the same bytes', () => {
    expect(flatDxf(parts[0]!, options).bytes).toEqual(drawings[0]);
  });
});

test('marks are open single strokes on their own layer, and no words stand on the part', (context) => {
  const part = flatFlange(flangesOf(inlineFour())[0]!);
  const [read] = measureDxfs(requireTool('ezdxf', context), [flatDxf(part).bytes]);
  expect(read!.types.ENGRAVE).toEqual(['LWPOLYLINE']);
  expect(read!.open.ENGRAVE).toBe(part.engraving.length);
  expect(read!.areas.ENGRAVE).toBeUndefined();
  expect(Object.entries(read!.types).filter(([, types]) => types.includes('TEXT'))).toEqual([
    ['NOTES', expect.anything()],
  ]);
});

test('200 random heads come back as they went, a choice each in turn (seed 47)', (context) => {
  const python = requireTool('ezdxf', context);
  const parts = fc
    .sample(randomHead, { seed: 47, numRuns: 200 })
    .flatMap((plan) => flangesOf(plan).map((f) => flatFlange(f, false)));
  expect(parts.length).toBeGreaterThanOrEqual(200);
  const options = parts.map((_, i) => choices[i % choices.length]!);
  const reads = measureDxfs(
    python,
    parts.map((part, i) => flatDxf(part, options[i]).bytes),
  );
  reads.forEach((read, i) => {
    expectAsMeant(parts[i]!, read, options[i]!);
  });
});

test('every starter plan, every choice', (context) => {
  const parts = STARTERS.flatMap(({ name }) => {
    const plan = starterPlan(name);
    return flatPartsOf(plan, flangesOf(plan)).all;
  });
  const cases = parts.flatMap((part) => choices.map((options) => ({ part, options })));
  const reads = measureDxfs(
    requireTool('ezdxf', context),
    cases.map(({ part, options }) => flatDxf(part, options).bytes),
  );
  reads.forEach((read, i) => {
    expectAsMeant(cases[i]!.part, read, cases[i]!.options);
  });
});
