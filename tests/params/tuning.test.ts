import { describe, expect, test } from 'vitest';
import { BASE, planFrom, problemsOf, swap } from './base-plan.js';

const CAM =
  '  cam: { exhaust_opens_bbdc: 60, exhaust_closes_atdc: 25, intake_opens_btdc: 25, intake_closes_abdc: 60 }\n  rpm: { power: 6000, limit: 7000 }\n';
const PORTS = BASE.replaceAll('diameter: 38 } }', 'diameter: 38 }, length_in_head: 70 }').replaceAll(
  'height: 36 } }',
  'height: 36 }, length_in_head: 80 }',
);
const COMPLETE = swap(PORTS, '  stroke: 80\n', `  stroke: 80\n${CAM}`);
const TUNED = swap(COMPLETE, 'length: 600', 'length: tuned');

const said = (text: string) => problemsOf(text).map((p) => `${p.line} ${p.path}: ${p.message}`);

describe('runners.length: tuned', () => {
  test('is read and left to tuning: no length yet', () => {
    const { runners, tuning } = planFrom(TUNED);
    expect(runners.tuned).toBe(true);
    expect(runners.length).toBeNaN();
    expect(tuning).toEqual({
      rule: 'duration',
      rpm: null,
      gasTemperature: 873.15,
      roughness: 0.046,
      tailpipe: null,
      turbine: null,
    });
  });

  test('names every field that is missing, each at its place', () => {
    const bare = swap(BASE, 'length: 600', 'length: tuned');
    expect(said(bare).map((s) => s.replace(/;.*/, ''))).toEqual([
      '4 engine.cam: missing',
      '4 engine.rpm: missing',
      '12 head.ports.0.length_in_head: missing',
      '13 head.ports.1.length_in_head: missing',
    ]);
  });

  test('takes tuning.rpm for the engine speed', () => {
    const own = `${swap(TUNED, '  rpm: { power: 6000, limit: 7000 }\n', '')}tuning: { rpm: 5000 }\n`;
    expect(planFrom(own).tuning.rpm).toBe(5000);
  });
});

describe('tuning', () => {
  test.each([
    ['rule: bell', /tuning\.rule: expected duration, wave_return, .* or quarter_wave_second, found "bell"/],
    ['rpm: 100', /tuning\.rpm: expected a number from 300 to 30000, found 100/],
    ['gas_temperature: 1500', /tuning\.gas_temperature: expected a number from 300 to 1000, found 1500/],
    ['tailpipe: { length: 900 }', /tuning\.tailpipe\.bore: missing/],
    ['turbine: { area: 0 }', /tuning\.turbine\.area: expected an area over 0 and at most 100000 mm2, found 0/],
    ['turbine: { area: 900 }, tailpipe: { length: 900, bore: 50 }', /tuning\.tailpipe: with a turbine the way ends/],
  ])('%s is refused', (fields, message) => {
    expect(said(`${BASE}tuning: { ${fields} }\n`).join('\n')).toMatch(message);
  });
});

const WAY = 'sections: [{ at: 0, diameter: 36 }, { at: 100, diameter: 40 }]';
const existing = (runners: string, collectors = `[{ name: out, ${WAY} }]`) =>
  `${BASE}existing:\n  runners:\n${runners}\n  collectors: ${collectors}\n`;
const BOTH = `    - { cylinder: 1, ${WAY} }\n    - { cylinder: 2, ${WAY} }`;

describe('existing', () => {
  test('is read with pipes from cylinders and from collectors', () => {
    const { existing: e } = planFrom(existing(BOTH));
    expect(e!.pipes.map((p) => [p.from, p.into])).toEqual([
      [{ cylinder: 1 }, 0],
      [{ cylinder: 2 }, 0],
      [{ collector: 0 }, null],
    ]);
    expect(e!.heatShare).toBe(1);
    // a ball as wide as the widest way
    expect(e!.collectors[0]!.volume).toBeCloseTo((Math.PI / 6) * 40 ** 3, 6);
  });

  test('areas of round, oval and square sections are theirs', () => {
    const area = (section: string) => {
      const text = existing(BOTH.replace('diameter: 36', section));
      return planFrom(text).existing!.pipes[0]!.sections[0]!.area;
    };
    expect(area('diameter: 36')).toBeCloseTo(Math.PI * 18 ** 2, 9);
    expect(area('width: 40, height: 30')).toBeCloseTo(10 * 30 + Math.PI * 15 ** 2, 9);
    expect(area('width: 40, height: 30, corners: square')).toBe(1200);
    expect(area('area: 1234')).toBe(1234);
  });

  test.each([
    [BOTH.replace('cylinder: 2', 'cylinder: 1'), undefined, /runners\.1\.cylinder: cylinder 1 has a runner already/],
    [
      BOTH.replace('cylinder: 2', 'cylinder: 7'),
      undefined,
      /cylinder 7 has no port; the ports are of cylinders 1 and 2/,
    ],
    [BOTH.split('\n')[0]!, undefined, /existing\.runners: every port needs a runner .* cylinder 2 has none/],
    [BOTH.replace('at: 100', 'at: 0'), undefined, /sections\.1\.at: expected a last section beyond 0/],
    [BOTH.replace('at: 0', 'at: 5'), undefined, /sections\.0\.at: expected 0 for the first section, found 5/],
    [
      BOTH.replace('diameter: 36', 'diameter: 36, area: 900'),
      undefined,
      /expected one of diameter, area, or width and height/,
    ],
    [BOTH.replace('diameter: 36', 'width: 30'), undefined, /expected both width and height/],
    [
      BOTH.replace(WAY, `${WAY}, bends: [{ at: 200, angle: 30, inside_radius: 9 }]`),
      undefined,
      /bends\.0\.at: expected a bend before the last section \(100 mm\), found 200 mm/,
    ],
    [BOTH.replace(WAY, `${WAY}, into: side`), undefined, /runners\.0\.into: expected "out", found "side"/],
    [
      BOTH,
      `[{ name: out, into: out, ${WAY} }]`,
      /collectors\.0\.into: expected none, the last collector ends in the outlet, found "out"/,
    ],
    [BOTH, `[{ name: out, ${WAY} }, { name: spare, ${WAY} }]`, /collectors\.1\.name: nothing joins "spare"/],
    [BOTH, `[{ name: out, ${WAY} }, { name: out, ${WAY} }]`, /collectors\.1\.name: the name "out" is taken/],
  ])('%# is refused with its place', (runners, collectors, message) => {
    expect(said(existing(runners, collectors)).join('\n')).toMatch(message);
  });
});
