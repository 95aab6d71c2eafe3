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

  it('says what it gives before any dummy tube is in', () => {
    expect(finding({ tubes: 2, alone: 3.14 }).message).toContain('2 of 3 dummy tubes (3.1 mm before any tube is in)');
    expect(finding({}).message).not.toContain('dummy');
  });
});
