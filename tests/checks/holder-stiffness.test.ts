import { describe, expect, it } from 'vitest';
import type { CheckContext } from '../../src/checks/context.js';
import type { Finding } from '../../src/checks/finding.js';
import { holdersStiff } from '../../src/checks/holder-stiffness.js';
import type { HolderStiffness } from '../../src/parts/jigs/holder-stiffness.js';
import { MOST_DEFLECTION } from '../../src/parts/jigs/strut-stiffness.js';

const HOLDER: HolderStiffness = {
  collector: 'merge',
  deflection: 0.4,
  strut: 16,
  struts: 3,
  given: false,
  stiffest: null,
  alone: 0.4,
  tubes: 0,
  propped: { once: 0.9, twice: 0.2, softest: [-0.98, 0, 0.2] },
  compliance: [],
};

const finding = (holder: Partial<HolderStiffness>): Finding =>
  holdersStiff({ plan: { units: 'mm' }, holders: [{ ...HOLDER, ...holder }] } as unknown as CheckContext)[0]!;

describe('stiffness of a holder', () => {
  it('holds up to the limit and not beyond', () => {
    expect(finding({ deflection: MOST_DEFLECTION }).level).toBe('ok');
    expect(finding({ deflection: MOST_DEFLECTION + 1e-6 }).level).toBe('warn');
  });

  it('says that stiffer struts stand to gain little where the lighter ones were chosen', () => {
    const { message } = finding({ deflection: 1, stiffest: 0.9 });
    expect(message).toContain('The stiffest with room there would give 0.90 mm and take more plastic.');
    expect(message).toContain('Steady the collector while you tack');
    expect(finding({ deflection: 1 }).message).not.toContain('stiffest');
  });

  it("leaves the choice to the program where the plan's own struts give too much", () => {
    expect(finding({ deflection: 1, given: true }).message).toMatch(/Leave jig\.strut to auto\.$/);
  });

  it('says where a stick goes and what it leaves, and a second one where one is not enough', () => {
    const { message } = finding({ deflection: 1 });
    expect(message).toContain('cannot move along [1.0, 0.0, -0.2] or back, which leaves 0.90 mm, and a second one');
    expect(message).toContain('square to it, which leaves 0.20 mm');
    const enough = finding({ deflection: 1, propped: { once: 0.3, twice: 0.1, softest: [0, 1, 0] } }).message;
    expect(enough).toContain('along [0.0, 1.0, 0.0] or back, which leaves 0.30 mm');
    expect(enough).not.toContain('a second one');
  });

  it('says what it gives before any dummy tube is in', () => {
    expect(finding({ tubes: 2, alone: 3.14 }).message).toContain('2 of 3 dummy tubes (3.1 mm before any tube is in)');
    expect(finding({}).message).not.toContain('dummy');
  });
});
