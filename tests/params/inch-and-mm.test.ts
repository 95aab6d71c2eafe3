import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Plan } from '../../src/params/plan.js';
import { readPlan } from '../../src/params/read-plan.js';
import { stlText, tetrahedron } from '../support/stl-text.js';
import { planFrom } from './base-plan.js';
import { fullPlan } from './full-plan.js';

const INCHES = readFileSync(new URL('../../templates/v8-bank.yaml', import.meta.url), 'utf8');

/** Lines whose plain numbers are no lengths: angles, counts, directions, rev/min. */
const NO_LENGTH =
  /evenrun|cylinders|bank_angle|firing_order|compression_ratio|_bbdc|_atdc|_btdc|_abdc|rpm|direction: \[[^\]]*\]$|clocking|merge_half_angle|seed/;

/** The inch plan written in mm: every plain number that is a length times 25.4. */
function inMillimetres(text: string): string {
  return text
    .split('\n')
    .map((line) => {
      const [code, ...comment] = line.split('#');
      if (NO_LENGTH.test(code!.trimEnd())) return line;
      const converted = code!
        .replace(
          /(direction: \[[^\]]*\]|cylinder: \d+|thread: \S+|max_angle: \d+|"[^"]*"|[\d./ ]+(?:in|mm)\b)|(?<![\w/.])-?\d+(?:\.\d+)?(?![\w/.])/g,
          (m, keep) => (keep === undefined ? String(Number(m) * 25.4) : m),
        )
        .replace('units: in', 'units: mm');
      return [converted, ...comment].join('#');
    })
    .join('\n');
}

/** Every number of a plan with its path. */
function numbers(value: unknown, path = ''): [string, number][] {
  if (typeof value === 'number') return [[path, value]];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([k, v]) => numbers(v, `${path}.${k}`));
}

describe('the same header in inches and in mm', () => {
  const inch: Plan = planFrom(INCHES);
  const mm: Plan = planFrom(inMillimetres(INCHES));

  test('is the same to 1e-9', () => {
    const [a, b] = [numbers(inch), numbers(mm)];
    expect(a.length).toBeGreaterThan(200);
    expect(b.map(([path]) => path)).toEqual(a.map(([path]) => path));
    a.forEach(([path, v], i) => {
      expect(Math.abs(v - b[i]![1]), path).toBeLessThan(1e-9);
    });
  });

  test('and remembers the unit it was written in', () => {
    expect([inch.units, mm.units]).toEqual(['in', 'mm']);
    expect(inch.tube.od).toBe(44.45);
    expect(inch.ports[1]!.at[0]).toBeCloseTo(4.3 * 25.4, 12);
  });
});

describe('every newer field in inches and in mm', () => {
  const read = (units: 'mm' | 'in'): Plan => {
    const found = readPlan(fullPlan(units), 'plan.yaml', () => stlText(tetrahedron(3)));
    if (!found.ok) throw new Error(found.text);
    return found.plan;
  };
  const [inch, mm] = [read('in'), read('mm')];

  test('is the same to 1e-9', () => {
    const [a, b] = [numbers(inch), numbers(mm)];
    expect(b.map(([path]) => path)).toEqual(a.map(([path]) => path));
    a.forEach(([path, v], i) => {
      expect(Math.abs(v - b[i]![1]), path).toBeLessThan(1e-9);
    });
  });

  test('and holds them all', () => {
    expect(mm.tube.steps).toHaveLength(1);
    expect(mm.secondaries!.od).toBe(48);
    expect(mm.collectors[2]!.freedom!.to).toEqual([20, 10, 30]);
    expect(mm.runners).toMatchObject({ length: 510, band: { from: 480, to: 540 }, budget: 45 });
    expect(mm.keepOuts.map((k) => [k.kind, k.clearance])).toEqual([
      ['capsule', 30],
      ['half-space', 15],
      ['mesh', 7],
      ['half-space', 7],
    ]);
    expect(mm.access.map((a) => a.length)).toEqual([60, 60, 100]);
    expect(mm.plates.map((p) => p.pattern.kind)).toHaveLength(6);
    expect([mm.gaskets!.grow, mm.drawing.sheet!.gap]).toEqual([0.8, 6]);
    expect(mm.tuning.turbine).toEqual({ area: 900, backPressure: 110_000 });
    expect(mm.existing!.pipes).toHaveLength(5);
    expect(mm.existing!.pipes[1]!.bends[0]!.insideRadius).toBe(12);
    expect(mm.weld).toEqual({ gap: 0.5, shrinkage: 0.8 });
  });
});
