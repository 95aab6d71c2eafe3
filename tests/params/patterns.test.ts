import { describe, expect, test } from 'vitest';
import { BASE, planFrom, problemsOf } from './base-plan.js';

const patternsOf = (section: string) => planFrom(`${BASE}patterns: ${section}\n`).patterns;
const problems = (fields: string): string[] =>
  problemsOf(`${BASE}patterns: { extra: [{ name: a, ${fields} }] }\n`).map((p) => `${p.path}: ${p.message}`);

describe('patterns', () => {
  test('are wrapped outside, with a tab, where the plan says nothing', () => {
    expect(planFrom(BASE).patterns).toEqual({ wrap: 'outside', tab: 15, paper: 0.1, units: 'mm', extra: [] });
  });

  test('pieces take tube, sheet and count from the plan where they leave them out', () => {
    const { extra } = patternsOf(
      '{ extra: [{ name: cone, kind: frustum, from: "5 in", to: "8 in", height: "4 in" }, { name: tee, kind: saddle, host_od: 60 }] }',
    );
    expect(extra[0]).toEqual({
      name: 'cone',
      count: 1,
      kind: 'frustum',
      from: 127,
      to: 203.2,
      height: 101.6,
      measured: 'outside',
      thickness: 1.6,
      material: '304 stainless',
    });
    expect(extra[1]).toMatchObject({ od: 42.4, wall: 1.6, hostOd: 60, hostWall: 1.6, angle: Math.PI / 2, offset: 0 });
  });

  test.each([
    [
      'an unknown kind',
      'kind: cone',
      'patterns.extra.0.kind: expected frustum, eccentric, square_to_round, mitre, pie_cut or saddle, found "cone"',
    ],
    [
      'a piece far flatter than wide',
      'kind: frustum, from: 50, to: 100, height: 9',
      'patterns.extra.0.height: expected a height of a tenth of the widest size or more (10 mm), found 9 mm',
    ],
    [
      'corners that do not fit',
      'kind: square_to_round, width: 50, depth: 40, corner_radius: 21, diameter: 40, height: 50',
      'patterns.extra.0.corner_radius: expected corners up to half the rectangle (20 mm), found 21 mm',
    ],
    [
      'a sheet thicker than the piece',
      'kind: frustum, from: 6, to: 40, height: 40, thickness: 3',
      'patterns.extra.0.from: expected an outside size over twice the sheet (3 mm thick), found 6 mm',
    ],
    [
      'a wall that leaves no bore',
      'kind: mitre, angle: 20, od: 10, wall: 5',
      'patterns.extra.0.wall: expected a wall that leaves a bore in 10 mm, found 5 mm',
    ],
    [
      'a bend without an inside',
      'kind: pie_cut, clr: 21, turn: 90, joints: 4',
      "patterns.extra.0.clr: expected a centreline radius over half the tube's diameter (21.2 mm), found 21 mm",
    ],
    [
      'joints that turn too far',
      'kind: pie_cut, clr: 60, turn: 180, joints: 1',
      'patterns.extra.0.joints: expected joints that turn 120 degrees at most, found 180 degrees each: use more joints',
    ],
    [
      'a branch larger than its host',
      'kind: saddle, host_od: 39',
      'patterns.extra.0.host_od: expected a tube that the bore of the branch (39.2 mm) meets all round: 39.2 mm or more, found 39 mm',
    ],
    [
      'an angle out of bounds',
      'kind: mitre, angle: 80',
      'patterns.extra.0.angle: expected an angle from 0.1 to 75 degrees',
    ],
    ['a size that is missing', 'kind: mitre', 'patterns.extra.0.angle: missing'],
    ['a field it does not have', 'kind: mitre, angle: 20, height: 4', 'patterns.extra.0.height: unknown field'],
  ])('%s is told by its field', (_, fields, message) => {
    const found = problems(fields);
    expect(found).toHaveLength(1);
    expect(found[0]!.startsWith(message), found[0]).toBe(true);
  });

  test('paper too stiff to be rolled inside is told by its field', () => {
    const found = problemsOf(
      `${BASE}patterns: { wrap: inside, paper: 2.5, extra: [{ name: a, kind: mitre, angle: 9, od: 12, wall: 2 }] }\n`,
    );
    expect(found.map((p) => `${p.path}: ${p.message}`)).toEqual([
      'patterns.paper: expected paper thinner than a quarter of the tightest bore (2 mm), found 2.5 mm',
    ]);
  });

  test('two of one name are refused', () => {
    const two = '{ extra: [{ name: a, kind: mitre, angle: 9 }, { name: a, kind: mitre, angle: 8 }] }';
    expect(problemsOf(`${BASE}patterns: ${two}\n`).map((p) => p.path)).toEqual(['patterns.extra.1.name']);
  });
});
