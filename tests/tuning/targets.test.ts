import { describe, expect, test } from 'vitest';
import { targetFrom, withTargets } from '../../src/tuning/targets.js';
import { starterPlan } from '../support/starter.js';

const four = starterPlan('inline-four');
const tuned = (tuning: Partial<typeof four.tuning> = {}) => ({
  ...four,
  runners: { ...four.runners, tuned: true, length: Number.NaN },
  tuning: { ...four.tuning, ...tuning },
});

describe('target lengths', () => {
  test('a plan that says its length keeps it', () => {
    expect(withTargets(four)).toEqual({ ok: true, plan: four });
    expect(targetFrom(four)).toBe('plan');
  });

  test('by the exhaust period: 850 ED / rpm - 3 in, less the port', () => {
    const targets = withTargets(tuned());
    if (!targets.ok) throw new Error('refused');
    expect(targets.plan.runners.length).toBeCloseTo(((850 * 240) / 6800 - 3) * 25.4 - 80, 9);
    expect(targetFrom(targets.plan)).toBe('rule duration at 6800 rev/min');
  });

  test('twice is once', () => {
    const once = withTargets(tuned({ rule: 'quarter_wave_second' }));
    if (!once.ok) throw new Error('refused');
    expect(withTargets(once.plan)).toEqual(once);
  });

  test('a length no engine asks for is refused with the range', () => {
    const targets = withTargets(tuned({ rpm: 30_000 }));
    if (targets.ok) throw new Error('accepted');
    expect(targets.faults[0]!.path).toEqual(['runners', 'length']);
    expect(targets.faults[0]!.message).toMatch(
      /asks for .* mm from the head face at 30000 rev\/min; expected 100 mm to 3000 mm/,
    );
  });

  test('so are steps beyond it', () => {
    const plan = tuned();
    const step = { at: 620, within: 10, od: 45, wall: 1.6, bends: [], sticks: [] };
    const targets = withTargets({ ...plan, tube: { ...plan.tube, steps: [step] } });
    if (targets.ok) throw new Error('accepted');
    expect(targets.faults[0]!.message).toMatch(
      /a step at 620 mm, give or take 10 mm, reaches past the tuned length, 605.8 mm/,
    );
  });
});
