import { describe, expect, test } from 'vitest';
import { PRINT } from '../support/print-plan.js';
import { BASE, planFrom, problemsOf } from './base-plan.js';

const problems = (jig: string): string[] => problemsOf(`${BASE}jig: ${jig}\n`).map((p) => `${p.path}: ${p.message}`);

describe('jig', () => {
  test('prints as is common where the plan says nothing', () => {
    const { gap, chamfer, print } = planFrom(BASE).jig;
    expect([gap, chamfer]).toEqual([5, 0.4]);
    expect(print).toEqual(PRINT);
  });

  test('takes what the plan says: percent as a share, degrees as radians, lengths in any unit', () => {
    const jig =
      '{ gap: 8, chamfer: 0, print: { infill: 40, overhang: 45, line_width: "0.02 in", walls: 5, layer_time: 0 } }';
    const { gap, chamfer, print } = planFrom(`${BASE}jig: ${jig}\n`).jig;
    expect([gap, chamfer]).toEqual([8, 0]);
    expect(print).toMatchObject({ infill: 0.4, walls: 5, layerTime: 0 });
    expect(print.overhang).toBeCloseTo(Math.PI / 4, 12);
    expect(print.lineWidth).toBeCloseTo(0.508, 12);
  });

  test.each([
    ['{ gap: -1 }', /^jig\.gap: .*from 0 mm to 100 mm, found -1 mm/],
    ['{ chamfer: 5 }', /^jig\.chamfer: .*from 0 mm to 2 mm, found 5 mm/],
    ['{ print: { walls: 2.5 } }', /^jig\.print\.walls: expected a whole number from 1 to 50, found 2\.5/],
    ['{ print: { infill: 150 } }', /^jig\.print\.infill: expected a number from 0 to 100, found 150/],
    ['{ print: { layer: 0 } }', /^jig\.print\.layer: .*over 0 mm and at most 2 mm, found 0 mm/],
    ['{ print: { flow: 0 } }', /^jig\.print\.flow: expected a number from 0\.01 to 1000, found 0/],
    ['{ print: { overhang: 120 } }', /^jig\.print\.overhang: expected an angle from 0 to 90 degrees, found 120/],
    ['{ print: { speed: 60 } }', /^jig\.print\.speed: /],
  ])('%s is refused with what was found and what is allowed', (jig, said) => {
    const found = problems(jig);
    expect(found).toHaveLength(1);
    expect(found[0]).toMatch(said);
  });
});
