import { describe, expect, test } from 'vitest';
import { outlineBounds } from '../../../src/geometry/outline/measure.js';
import { validateOutline } from '../../../src/geometry/outline/valid.js';
import { inletTube } from '../../../src/params/collector/inlet-tube.js';
import type { Plan } from '../../../src/params/plan.js';
import { STARTERS } from '../../../src/params/text/starter.js';
import { collectorGeometry } from '../../../src/parts/collector/merge-geometry.js';
import type { Pattern } from '../../../src/parts/patterns/pattern.js';
import { patternsOf } from '../../../src/parts/patterns/patterns.js';
import { starterPlan } from '../../support/starter.js';

const made = (plan: Plan): readonly Pattern[] =>
  patternsOf(
    plan,
    plan.collectors.map((c) => collectorGeometry(c, inletTube(plan, c))),
  );

describe.each(STARTERS.map((s) => s.name))('%s', (name) => {
  const plan = starterPlan(name);
  const patterns = made(plan);

  test('has its patterns, each sound, within 0.005 mm and by a name of its own', () => {
    expect(patterns.length).toBeGreaterThan(0);
    for (const p of patterns) {
      for (const o of [p.outline, ...p.holes, ...(p.tab === null ? [] : [p.tab])]) validateOutline(o);
      expect(p.deviation).toBeLessThanOrEqual(0.005);
      expect(p.name).toMatch(/^[a-z0-9-]+$/);
      expect(p.tube === null).toBe(p.use === 'sheet');
      expect(p.plate === null).toBe(p.use === 'wrap');
      const { from } = outlineBounds(p.outline);
      expect(from[0]).toBeCloseTo(0, 9);
      expect(from[1]).toBeCloseTo(0, 9);
    }
    expect(new Set(patterns.map((p) => p.name)).size).toBe(patterns.length);
  });

  test('every inlet of every collector that merges is counted once', () => {
    const inlets = plan.collectors.map((c) => c.cylinders.length + c.from.length).filter((n) => n > 1);
    const counted = patterns.filter((p) => p.name.endsWith('-inlet')).reduce((sum, p) => sum + p.count, 0);
    expect(counted).toBe(inlets.reduce((sum, n) => sum + n, 0));
    const cones = patterns.filter((p) => p.name.endsWith('-cone')).reduce((sum, p) => sum + p.count, 0);
    expect(cones).toBe(plan.collectors.length);
  });
});

test('tilted ports have their end once for each tilt; square ones have none', () => {
  const plan = starterPlan('v8-bank');
  const ends = made(plan).filter((p) => p.name.startsWith('port-'));
  expect(ends).toHaveLength(1);
  expect(ends[0]!.count).toBe(4);
  expect(made(starterPlan('inline-four')).some((p) => p.name.startsWith('port-'))).toBe(false);
});

test('pieces whose names look alike as files are numbered', () => {
  const plan = starterPlan('single');
  const mitre = { kind: 'mitre', count: 1, od: 40, wall: 1.5, angle: 0.2 } as const;
  const extra = ['el bow', 'el-bow', '№'].map((name) => ({ ...mitre, name }));
  const names = made({ ...plan, patterns: { ...plan.patterns, extra } }).map((p) => p.name);
  expect(names.slice(-3)).toEqual(['el-bow', 'el-bow-2', 'piece']);
});

test('parallel tubes are not trimmed and have no wrap', () => {
  const plan = starterPlan('inline-four');
  const collectors = plan.collectors.map((c) => ({ ...c, mergeHalfAngle: 0 }));
  expect(made({ ...plan, collectors }).map((p) => p.name)).toEqual(['collector-cone']);
});
