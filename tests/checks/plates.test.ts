import { describe, expect, test } from 'vitest';
import type { CheckContext } from '../../src/checks/context.js';
import type { Finding } from '../../src/checks/finding.js';
import { plates, sheetFit } from '../../src/checks/plates.js';
import { flangesOf } from '../../src/parts/flange/flange.js';
import { BASE, planFrom } from '../params/base-plan.js';
import { PLATES } from '../params/plate-plan.js';

/** What these rules look at; they ask nothing of the routes. */
function contextOf(text: string): CheckContext {
  const plan = planFrom(text);
  return { plan, flanges: flangesOf(plan) } as unknown as CheckContext;
}

const found = (section: string): readonly Finding[] => plates(contextOf(BASE + section));
const one = (fields: string, id: string): Finding =>
  found(`plates:\n  - { name: a, ${fields} }\n`).find((f) => f.id === id)!;

describe('plates', () => {
  test('as commonly made hold', () => {
    const all = found(PLATES);
    expect(all.filter((f) => f.level !== 'ok')).toEqual([]);
    expect(new Set(all.map((f) => f.id))).toEqual(
      new Set(['plate.throat-edge', 'plate.bolt-edge', 'plate.web', 'plate.area']),
    );
  });

  test('metal between a bolt and the bore, exact', () => {
    // Bolts at 30 mm from the middle, 11 mm holes (ISO 273 medium for M10), bore 40 mm.
    const web = one('kind: oval_two_bolt, bore: 40, bolt_spacing: 60', 'plate.web');
    expect(web).toMatchObject({ level: 'fail', limit: 5, unit: 'mm' });
    expect(web.value).toBeCloseTo(30 - 5.5 - 20, 9);
    expect(web.message).toBe('4.50 mm of metal between bore and bolt 1; 5.00 mm are wanted.');
  });

  test('a bolt that breaks into the bore is below zero', () => {
    const within = one('kind: oval_two_bolt, bore: 80, bolt_spacing: 60', 'plate.web');
    expect(within.level).toBe('fail');
    expect(within.value).toBeLessThan(0);
  });

  test('a divider thinner than other webs is as the part has it', () => {
    const divided =
      'kind: rectangle_four_bolt, bolt_x: 120, bolt_y: 80, throat: { kind: divided, width: 90, height: 40, web: 4 }';
    expect(one(divided, 'plate.web')).toMatchObject({ level: 'ok' });
  });

  test('a round plate told too small fails by its edges', () => {
    const small = 'kind: round, bolts: 4, bolt_circle: 90, bore: 50, od: 104';
    const edge = one(small, 'plate.bolt-edge');
    expect(edge).toMatchObject({ level: 'fail', limit: 8 });
    expect(edge.value).toBeCloseTo(52 - 45 - 5.5, 9);
  });

  test('a bore smaller than the outlet is a contraction', () => {
    const narrow = one('kind: oval_two_bolt, for: collector, bore: 40, bolt_spacing: 96', 'plate.area');
    expect(narrow).toMatchObject({ level: 'warn', unit: 'ratio', limit: 0.98 });
    expect(narrow.value).toBeCloseTo((40 / 46.8) ** 2, 9);
    expect(narrow.message).toContain('contraction');
  });
});

describe('sheets', () => {
  const fitOn = (sheet: string): readonly Finding[] => sheetFit(contextOf(`${BASE}${PLATES}drawing: { ${sheet} }\n`));

  test('no sheet, nothing to say', () => {
    expect(fitOn('paper: a4')).toEqual([]);
  });

  test('large enough for all', () => {
    expect(fitOn('sheet: { size: [1000, 500] }').every((f) => f.level === 'ok')).toBe(true);
  });

  test('too small for the flange: a warning with by how much and what to change', () => {
    const flange = fitOn('sheet: { size: [160, 160] }').find((f) => f.place === 'flange')!;
    expect(flange).toMatchObject({ level: 'warn', id: 'sheet.fit' });
    expect(flange.value).toBeGreaterThan(0);
    expect(flange.message).toContain('drawing.sheet.size');
  });
});
