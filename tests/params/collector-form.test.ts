import { describe, expect, test } from 'vitest';
import { coveredArea } from '../../src/geometry/merge/section.js';
import { collectorGeometry } from '../../src/parts/collector/merge-geometry.js';
import { collectorLength } from '../../src/routing/problem.js';
import { BASE, planFrom, problemsOf, swap } from './base-plan.js';

const OUTLET = 'outlet: { od: 50, cone_length: 100 }';
/** The base plan with other words for its outlet, and more lines of its collector. */
const withOutlet = (outlet: string, more = ''): string => swap(BASE, OUTLET, `outlet: { ${outlet} }${more}`);
const more = (lines: string): string => swap(BASE, OUTLET, `${OUTLET}\n  ${lines}`);

/** A plan of three ports, for what needs three inlets. */
const THREE = swap(
  swap(swap(BASE, 'cylinders: 2', 'cylinders: 3'), 'firing_order: [1, 2]', 'firing_order: [1, 2, 3]'),
  '    - { cylinder: 2,',
  '    - { cylinder: 3, at: [190, 0], shape: { kind: round, diameter: 38 } }\n    - { cylinder: 2,',
);

/** Path and sentence of the one problem. */
function problem(text: string): string {
  const found = problemsOf(text);
  expect(found.map((p) => p.message)).toHaveLength(1);
  return `${found[0]!.path}: ${found[0]!.message}`;
}

describe('form of a collector in a plan', () => {
  test('a plan that says nothing of it gets an open centre, a plain cone, tubes welded on and no branch', () => {
    const [c] = planFrom(BASE).collectors;
    expect(c).toMatchObject({ centre: 'open', slip: null, branch: null });
    expect(c!.outlet).toEqual({ od: 50, wall: 1.6, coneLength: 100, tail: 40, throat: null });
  });

  test('the length of a cone follows from its half-angle and the areas at its ends', () => {
    const plan = planFrom(withOutlet('od: 63.5, cone_half_angle: 7'));
    const [c] = plan.collectors;
    const g = collectorGeometry(c!, plan.tube);
    const area = coveredArea({ count: 2, offset: g.mergeRadius, tilt: g.mergeHalfAngle, radius: g.bore });
    const from = Math.sqrt(area / Math.PI);
    expect(c!.outlet.coneLength).toBeCloseTo(Math.abs(30.15 - from) / Math.tan((7 * Math.PI) / 180), 9);
    expect(Math.abs(g.coneHalfAngle)).toBeCloseTo((7 * Math.PI) / 180, 12);
  });

  test('a venturi has a throat and a diffuser by length or half-angle, and its length counts', () => {
    const venturi = 'kind: venturi, od: 63.5, cone_length: 60, throat: 48, throat_length: 10';
    const byLength = planFrom(withOutlet(`${venturi}, diffuser: { length: 70 }`));
    expect(byLength.collectors[0]!.outlet.throat).toEqual({ bore: 48, length: 10, diffuserLength: 70 });
    const byAngle = planFrom(withOutlet(`${venturi}, diffuser: { half_angle: 6 }`));
    const { throat } = byAngle.collectors[0]!.outlet;
    expect(throat!.diffuserLength).toBeCloseTo((60.3 - 48) / 2 / Math.tan(Math.PI / 30), 9);
    const g = collectorGeometry(byLength.collectors[0]!, byLength.tube);
    expect(g.totalLength).toBeCloseTo(g.mergeLength + 60 + 10 + 70 + 40, 9);
    expect(collectorLength(byLength.collectors[0]!, byLength)).toBeCloseTo(g.totalLength, 9);
    const straight = planFrom(withOutlet('kind: venturi, od: 63.5, cone_length: 60, throat: 60.3, throat_length: 30'));
    expect(straight.collectors[0]!.outlet.throat).toEqual({ bore: 60.3, length: 30, diffuserLength: 0 });
  });

  test('sleeves, spike and branch, in inches as well, with defaults', () => {
    const fittings =
      'centre: spike\n  gap: 6\n  slip: { overlap: 20 }\n  branch: { od: 1.5 in, at: 230, length: 80, clocking: 90 }';
    const text = swap(THREE, OUTLET, `outlet: { od: 60.3, cone_length: 60, tail: 140 }\n  ${fittings}`);
    const [c] = planFrom(text).collectors;
    expect(c!.centre).toBe('spike');
    expect(c!.slip).toEqual({ overlap: 20, fit: 0.3 });
    expect(c!.branch).toMatchObject({ od: 38.1, wall: 1.6, at: 230, length: 80, on: 'tail' });
    expect(c!.branch!.angle).toBeCloseTo(Math.PI / 4, 12);
    expect(c!.branch!.clocking).toBeCloseTo(Math.PI / 2, 12);
  });
});

describe('form of a collector that cannot be', () => {
  test.each([
    [
      withOutlet('od: 50'),
      'collector.outlet.cone_length: missing; give the length of the cone, or its cone_half_angle',
    ],
    [
      withOutlet('od: 50, cone_length: 90, cone_half_angle: 5'),
      'collector.outlet.cone_half_angle: the cone has its length already: leave cone_length or cone_half_angle out',
    ],
    [
      withOutlet('od: 50, cone_length: 90, kind: venturi'),
      'collector.outlet.throat: missing; a venturi needs the bore of its throat',
    ],
    [
      withOutlet('od: 50, cone_length: 90, throat: 40'),
      'collector.outlet.throat: only a venturi has one: set kind to venturi, or leave it out',
    ],
    [
      withOutlet('od: 50, cone_length: 90, kind: venturi, throat: 48'),
      "collector.outlet.throat: expected a throat no wider than the outlet's bore (46.8 mm), found 48 mm",
    ],
    [
      withOutlet('od: 50, cone_length: 90, kind: venturi, throat: 40'),
      "collector.outlet.throat: the throat widens by 6.8 mm to the outlet: give the diffuser's half_angle or length",
    ],
    [
      withOutlet('od: 50, cone_length: 90, kind: venturi, throat: 40, diffuser: { length: 50, half_angle: 4 }'),
      'collector.outlet.diffuser: expected one of half_angle and length',
    ],
    [
      withOutlet('od: 50, cone_length: 90, kind: venturi, throat: 46.8, diffuser: { length: 50 }'),
      'collector.outlet.diffuser: the throat is as wide as the outlet: there is nothing to widen; leave diffuser out',
    ],
    [
      more('centre: spike'),
      'collector.centre: a spike fills the hole that three tubes or more leave between them, and two inlets leave none: take open',
    ],
    [
      more('gap: 3\n  slip: { overlap: 20 }'),
      'collector.slip: sleeves of 1.6 mm wall and 0.3 mm fit need a gap of at least 5.47 mm between the tubes, found 3 mm: set gap',
    ],
    [
      more('gap: 6\n  slip: { overlap: 35 }'),
      'collector.slip.overlap: the sleeve slips over straight tube, and only 20 mm of it are sure: expected at most that, or a larger tube.min_straight_inlet',
    ],
    [
      more('branch: { od: 48, at: 200, length: 80 }'),
      'collector.branch.od: expected a branch no larger than the bore it leaves (46.8 mm), found 48 mm',
    ],
    [
      more('branch: { od: 30, wall: 15, at: 200, length: 80 }'),
      'collector.branch.wall: expected a wall thinner than half the branch',
    ],
  ])('%#', (text, words) => {
    expect(problem(text)).toBe(words);
  });

  test('a branch off its host, or too short to stand out of it', () => {
    expect(problem(more('branch: { od: 25, at: 20, length: 80 }'))).toMatch(
      /^collector\.branch\.at: the saddle runs from .* behind the inlet plane and the tail from .*: expected it wholly on the tail$/,
    );
    const plan = planFrom(BASE);
    const total = collectorLength(plan.collectors[0]!, plan);
    const at = (total - 20).toFixed(1);
    expect(problem(more(`branch: { od: 25, angle: 90, at: ${at}, length: 20 }`))).toBe(
      "collector.branch.length: expected at least 30 mm from the collector's axis, so that it stands out of the skin, found 20 mm",
    );
    expect(planFrom(more(`branch: { od: 25, angle: 90, at: ${at}, length: 30 }`)).collectors[0]!.branch!.length).toBe(
      30,
    );
  });
});
