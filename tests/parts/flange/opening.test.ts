import { describe, expect, test } from 'vitest';
import { openings } from '../../../src/checks/opening.js';
import { frameFacing } from '../../../src/geometry/frame.js';
import { outlineToOutline } from '../../../src/geometry/outline/distance.js';
import { circleOf, circleOutline, rectangleOutline } from '../../../src/geometry/outline/make.js';
import { outlineArea, outlineBounds } from '../../../src/geometry/outline/measure.js';
import type { Outline } from '../../../src/geometry/outline/outline.js';
import type { Vec3 } from '../../../src/geometry/vec3.js';
import type { OpeningPlan } from '../../../src/params/plan/flange.js';
import type { Plan } from '../../../src/params/plan.js';
import { flangesOf } from '../../../src/parts/flange/flange.js';
import { clockPosition, ledgesOf } from '../../../src/parts/flange/ledge.js';
import { planWith } from '../../support/plan-fixture.js';

const OVAL = rectangleOutline(44, 34, 17);

/** One port with a tube of 42.4 x 2 mm: bore 38.4. */
function planOf(opening: OpeningPlan, outline: Outline = OVAL, direction: Vec3 = [0, 0, 1], thickness = 10): Plan {
  const plan = planWith([{ at: [10, 20], outline }], [], { opening, thickness });
  const port = { ...plan.ports[0]!, frame: frameFacing([10, 20, 0], direction, [0, 1, 0]) };
  return { ...plan, ports: [port] };
}

const flowOf = (plan: Plan) => flangesOf(plan)[0]!.flows[0]!;

const findings = (plan: Plan) =>
  Object.fromEntries(openings({ plan, flanges: flangesOf(plan) } as never).map((f) => [f.id, f]));

describe('what the opening is cut to', () => {
  test('the port, grown', () => {
    const { cut, port } = flowOf(planOf({ match: 'port', enlarge: 1 }));
    expect(outlineToOutline(cut, port).distance).toBeCloseTo(1, 9);
  });

  test('the outside of the tube with its fit, for a socket', () => {
    const circle = circleOf(flowOf(planOf({ match: 'tube_od', fit: 0.2 })).cut)!;
    expect(circle.diameter).toBeCloseTo(42.8, 9);
    expect(circle.centre).toEqual([expect.closeTo(10), expect.closeTo(20)]);
  });

  test('the bore of the tube', () => {
    expect(circleOf(flowOf(planOf({ match: 'tube_bore' })).cut)!.diameter).toBeCloseTo(38.4, 9);
  });

  test('what port and bore have in common, with the rest to blend', () => {
    const part = flangesOf(planOf({ match: 'transition', enlarge: 0, outer: 'tube_bore' }))[0]!;
    const { cut, blend } = part.flows[0]!;
    const { from, to } = outlineBounds(cut);
    // as wide as the bore, as high as the port
    expect(to[0] - from[0]).toBeCloseTo(38.4, 1);
    expect(to[1] - from[1]).toBeCloseTo(34, 6);
    expect(blend!.head.most.height).toBeCloseTo((44 - 38.4) / 2, 1);
    expect(blend!.outer.most.height).toBeCloseTo((38.4 - 34) / 2, 1);
    const port = (Math.PI * 34 ** 2) / 4 + 10 * 34;
    const bore = (Math.PI * 38.4 ** 2) / 4;
    expect(blend!.volume).toBeCloseTo(((port + bore - 2 * outlineArea(cut)) / 2) * 10, 4);
    expect(part.contours.map((c) => c.face)).toEqual(['head', 'outer']);
    expect(part.notes.some((n) => /blend by hand/.test(n))).toBe(true);
  });
});

describe('a tilted port', () => {
  const tilt = 0.35;
  const direction: Vec3 = [0, -Math.sin(tilt), Math.cos(tilt)];

  test('the bore is an ellipse where it leaves the outer face', () => {
    const { cut } = flowOf(planOf({ match: 'tube_bore' }, OVAL, direction));
    const { from, to } = outlineBounds(cut);
    expect(to[0] - from[0]).toBeCloseTo(38.4, 3);
    expect(to[1] - from[1]).toBeCloseTo(38.4 / Math.cos(tilt), 3);
    expect((from[1] + to[1]) / 2).toBeCloseTo(20 - 10 * Math.tan(tilt), 3);
  });

  test('a socket lets the tube pass at both faces', () => {
    const { cut } = flowOf(planOf({ match: 'tube_od', fit: 0 }, OVAL, direction));
    const { from, to } = outlineBounds(cut);
    expect(to[1] - from[1]).toBeCloseTo(42.4 / Math.cos(tilt) + 10 * Math.tan(tilt), 3);
  });

  test('areas are taken across the axis', () => {
    const { areas } = flowOf(planOf({ match: 'port', enlarge: 0 }, OVAL, direction));
    expect(areas.bore).toBeCloseTo((Math.PI * 38.4 ** 2) / 4, 1);
    expect(areas.port).toBeCloseTo(((Math.PI * 34 ** 2) / 4 + 340) * Math.cos(tilt), 6);
  });

  test('a round port of the bore has its ledge on the side the tube leans away from', () => {
    const { atTube } = flowOf(planOf({ match: 'port', enlarge: 0 }, circleOutline([0, 0], 38.4), direction));
    expect(clockPosition(atTube.most.angle)).toBe("12 o'clock");
    // the ellipse's upper end lies 10 tan(tilt) lower, and a little higher for its longer axis
    expect(atTube.most.height).toBeCloseTo(10 * Math.tan(tilt) - 19.2 * (1 / Math.cos(tilt) - 1), 1);
  });
});

describe('ledges', () => {
  test('of a circle in a larger one are the same all round', () => {
    const { points, most } = ledgesOf(circleOutline([0, 0], 42), circleOutline([0, 0], 38), [0, 0]);
    expect(points.length).toBeGreaterThan(120);
    for (const p of points) expect(p.height).toBeCloseTo(2, 9);
    expect(most.height).toBeCloseTo(2, 9);
  });

  test('are none where what comes next is wider', () => {
    const { points } = ledgesOf(circleOutline([0, 0], 38), circleOutline([0, 0], 42), [0, 0]);
    expect(points.every((p) => p.height === 0)).toBe(true);
  });

  test.each([
    [0, "3 o'clock"],
    [90, "12 o'clock"],
    [180, "9 o'clock"],
    [-90, "6 o'clock"],
    [-180, "9 o'clock"],
    [30, "2 o'clock"],
    [150, "10 o'clock"],
  ])('at %d deg stand at %s', (degrees, words) => {
    expect(clockPosition((degrees * Math.PI) / 180)).toBe(words);
  });
});

describe('the check of openings', () => {
  test('matched to the port, a round bore in a wide port leaves a ledge at the sides', () => {
    const found = findings(planOf({ match: 'port', enlarge: 0 }));
    expect(found['opening.port-ledge']!.value).toBe(0);
    expect(found['opening.ledge']).toMatchObject({ level: 'warn', value: expect.closeTo(2.8, 6) });
    expect(found['opening.ledge']!.message).toMatch(/3 o'clock|9 o'clock/);
    const ratio = (Math.PI * 19.2 ** 2) / ((Math.PI * 34 ** 2) / 4 + 340);
    expect(found['opening.area']).toMatchObject({ level: 'warn', value: expect.closeTo(ratio, 6) });
  });

  test('matched to the bore, the plate stands in the gas at the port', () => {
    const found = findings(planOf({ match: 'tube_bore' }));
    expect(found['opening.port-ledge']).toMatchObject({ level: 'warn', value: expect.closeTo(2.8, 6) });
    expect(found['opening.ledge']!.value).toBeCloseTo(0, 6);
  });

  test('a socket puts the end of the tube there', () => {
    const found = findings(planOf({ match: 'tube_od', fit: 0.2 }));
    expect(found['opening.port-ledge']!.value).toBeCloseTo(2.8, 6);
  });

  test('blended, both ledges are gone', () => {
    const found = findings(planOf({ match: 'transition', enlarge: 0, outer: 'tube_bore' }));
    expect(found['opening.port-ledge']!.value).toBe(0);
    expect(found['opening.ledge']!.value).toBe(0);
    expect(found['opening.blend']!.level).toBe('ok');
  });
});
