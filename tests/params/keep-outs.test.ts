import { describe, expect, test } from 'vitest';
import { BASE, planFrom, problemsOf, swap } from './base-plan.js';

const keepOuts = (list: string) => `${BASE}keep_out:\n${list}`;

const faults = (text: string) => problemsOf(text).map((p) => `${p.path}: ${p.message}`);

describe('keep-outs', () => {
  test('corners come in order, the clearance from the runners', () => {
    const plan = planFrom(
      keepOuts(
        '  - { name: a, kind: box, from: [10, 0, 5], to: [0, 20, -5] }\n  - { name: b, kind: cylinder, from: [0, 0, 0], to: [0, 0, 9], diameter: 1 in, clearance: 0 }\n',
      ),
    );
    expect(plan.keepOuts).toEqual([
      { name: 'a', kind: 'box', from: [0, 0, -5], to: [10, 20, 5], clearance: 6, heat: false },
      { name: 'b', kind: 'cylinder', from: [0, 0, 0], to: [0, 0, 9], diameter: 25.4, clearance: 0, heat: false },
    ]);
  });

  test('a capsule keeps its ends, a half space its point and unit normal', () => {
    const plan = planFrom(
      keepOuts(
        '  - { name: hose, kind: capsule, from: [9, 0, 0], to: [0, 0, 9], diameter: 12 }\n  - { name: wall, kind: half_space, point: [400, 0, 0], normal: [-3, 0, 4] }\n',
      ),
    );
    expect(plan.keepOuts).toEqual([
      { name: 'hose', kind: 'capsule', from: [9, 0, 0], to: [0, 0, 9], diameter: 12, clearance: 6, heat: false },
      { name: 'wall', kind: 'half-space', point: [400, 0, 0], normal: [-0.6, 0, 0.8], clearance: 6, heat: false },
    ]);
  });

  test('what must stay cool keeps the larger of its own gap and the heat distance', () => {
    const list = ['heat: true', 'heat: true, clearance: 10', 'heat: true, clearance: 40', 'clearance: 10']
      .map((more, i) => `  - { name: n${i}, kind: box, from: [0, 0, 0], to: [1, 1, 1], ${more} }\n`)
      .join('');
    const gaps = (text: string) => planFrom(text).keepOuts.map((k) => [k.clearance, k.heat]);
    // 25 mm with a shield: common practice, no source.
    expect(gaps(keepOuts(list))).toEqual([
      [25, true],
      [25, true],
      [40, true],
      [10, false],
    ]);
    const wider = swap(keepOuts(list), 'length: 600', 'length: 600\n  heat_distance: 2 in');
    expect(gaps(wider).map(([gap]) => gap)).toEqual([50.8, 50.8, 50.8, 10]);
  });

  test('the ground is a half space that no tube goes under', () => {
    const plan = planFrom(`${keepOuts('  - { name: a, kind: box, from: [0, 0, 0], to: [1, 1, 1] }\n')}ground: -420\n`);
    expect(plan.keepOuts.map((k) => k.name)).toEqual(['a', 'ground']);
    expect(plan.keepOuts[1]).toEqual({
      name: 'ground',
      kind: 'half-space',
      point: [0, -420, 0],
      normal: [0, 1, 0],
      clearance: 6,
      heat: false,
    });
  });

  test.each([
    [
      '- { name: a, kind: box, from: [0, 0, 0], to: [1, 0, 1] }',
      'keep_out.0.to: the box has no thickness along y: from and to must differ in x, y and z',
    ],
    [
      '- { name: a, kind: cylinder, from: [1, 0, 0], to: [1, 0, 0], diameter: 5 }',
      'keep_out.0.to: the cylinder has no length: from and to are the same point',
    ],
    [
      '- { name: a, kind: capsule, from: [1, 0, 0], to: [1, 0, 0], diameter: 5 }',
      'keep_out.0.to: the capsule has no length: from and to are the same point',
    ],
    [
      '- { name: a, kind: half_space, point: [1, 0, 0], normal: [0, 0, 0] }',
      'keep_out.0.normal: expected a direction that is not zero, such as [0, -1, 0], found [0,0,0]',
    ],
    [
      '- { name: a, kind: half_space, point: [1, 0, 0] }',
      'keep_out.0.normal: missing; expected a list such as [1, 2, 3]',
    ],
    [
      '- { name: wall, kind: half_space, point: [0, -290, 0], normal: [0, 1, 0] }',
      'collector.at: the inlet plane\'s centre lies 10 mm behind the plane of "wall"',
    ],
    [
      '- { name: a, kind: box, from: [0, 0, 0], to: [1, 1, 1], heat: hot }',
      'keep_out.0.heat: expected true or false, found "hot"',
    ],
    [
      '- { name: a, kind: cylinder, from: [1, 0, 0], to: [1, 0, 5], diameter: 5 }\n  - { name: a, kind: cylinder, from: [1, 0, 0], to: [1, 0, 5], diameter: 5 }',
      'keep_out.1.name: the name "a" is taken by an earlier keep-out; each needs its own',
    ],
    [
      '- { name: a, kind: sphere, from: [1, 0, 0] }',
      'keep_out.0.kind: expected box, cylinder, capsule, half_space or mesh, found "sphere"',
    ],
    [
      '- { name: a, kind: half-space, point: [1, 0, 0] }',
      'keep_out.0.kind: expected box, cylinder, capsule, half_space or mesh, found "half-space"; did you mean "half_space"?',
    ],
  ])('%j', (list, message) => {
    expect(faults(keepOuts(`  ${list}\n`))).toEqual([message]);
  });

  test.each([
    ['ground: -299\n', 'collector.at: the inlet plane\'s centre lies 1 mm behind the plane of "ground"'],
    ['ground: low\n', 'ground: expected a length such as 44.45 or "1.75 in", found "low"'],
    [
      'ground: -400\nkeep_out:\n  - { name: ground, kind: box, from: [0, 0, 0], to: [1, 1, 1] }\n',
      'keep_out.0.name: the name "ground" is taken by the height given as ground',
    ],
  ])('%j', (more, message) => {
    expect(faults(BASE + more)).toEqual([message]);
  });

  test('a hundred and one are too many', () => {
    const list = Array.from(
      { length: 101 },
      (_, i) => `  - { name: n${i}, kind: box, from: [0, 0, 0], to: [1, 1, 1] }\n`,
    );
    expect(problemsOf(keepOuts(list.join('')))[0]!.message).toBe('expected at most 100 entries, found a list of 101');
  });
});
